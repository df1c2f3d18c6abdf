import { expect, it } from "vitest";
import { deviationWords, warningNote } from "@/app/_ui/unit/early-warning-words.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const [leakDown, compression] = [{ measure: "leak-down" }, { measure: "compression-dry" }] as const;

it("early warnings tell leakage in points, and compression in per cent of what was expected", () => {
  expect(deviationWords(f, leakDown, 4).replaceAll("\u00a0", " ")).toBe("4.0 points");
  expect(deviationWords(f, compression, 6).replaceAll("\u00a0", " ")).toBe("6.0 %");
  expect(warningNote([compression], 4)).toContain(
    "let expect, in per cent of the compression expected. Usual scatter:",
  );
  expect(warningNote([leakDown, compression, leakDown], 4)).toContain(
    "in points of leakage, or in per cent of the compression expected.",
  );
  expect(warningNote([leakDown], 4)).not.toContain("compression");
  expect(warningNote([leakDown], 4)).toContain("what its siblings and its own earlier course let expect");
  // An engine of one cylinder has none.
  expect(warningNote([leakDown], 1)).not.toContain("siblings");
});
