import { describe, expect, it } from "vitest";
import { wrapWords } from "@/app/_ui/unit/wrap-words.ts";

describe("wrapWords", () => {
  it("breaks between words and keeps a long word whole", () => {
    expect(wrapWords("not used: slow cranking, 120 rpm", 16, 3)).toEqual(["not used: slow", "cranking, 120", "rpm"]);
    expect(wrapWords("thermostatically", 5, 2)).toEqual(["thermostatically"]);
  });

  it("ends in an ellipsis what does not fit", () => {
    expect(wrapWords("a b c d e f", 3, 2)).toEqual(["a b", "c d…"]);
    expect(wrapWords("", 3, 2)).toEqual([]);
  });
});
