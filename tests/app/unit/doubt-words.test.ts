import { describe, expect, it } from "vitest";
import { doubtWords } from "@/app/_ui/unit/doubt-words.ts";

describe("doubtWords", () => {
  it("leads with whether the reading counts", () => {
    expect(doubtWords(0, "slow cranking, 120 rpm")).toBe("not used: slow cranking, 120 rpm");
    expect(doubtWords(0.3, "others read lower")).toBe("counts less: others read lower");
    expect(doubtWords(0, null)).toBe("not used");
  });

  it("does not say it twice", () => {
    expect(doubtWords(0, "throttle shut: all cylinders read low; kept, not used")).toBe(
      "throttle shut: all cylinders read low; kept, not used",
    );
    expect(doubtWords(0.5, "top dead centre not confirmed: counts half")).toBe(
      "top dead centre not confirmed: counts half",
    );
  });
});
