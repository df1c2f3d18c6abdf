import { expect, it } from "vitest";
import { gainSentences } from "@/app/_ui/unit/gain-words.ts";
import type { StepGain } from "@/lib/schema/report.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const gain: StepGain = {
  ...{ share: 0.12, hours: 0.5, effort: "two tests", counts: 1, results: [], rarer: 0 },
  cause: { open: 1.5, told: 0.2 },
  repairClass: { open: 0.5, told: 0.04 },
};
const say = (more: Partial<StepGain> = {}) =>
  gainSentences({ ...gain, ...more }, formatsOf(plainPreferences)).map((words) => words.replaceAll("\u00a0", " "));

it("tells what is open, what a result is expected to tell of it, and what that is an hour", () => {
  const [open, hour] = say();
  expect(open).toBe(
    "Open now: 2.00 bits, 1.50 of the cause and 0.50 of the class of repair. A result is expected to tell 0.24 of them, 0.20 of the cause and 0.04 of the class: 12 %.",
  );
  expect(hour).toBe(
    "In some 0.5 h that is 24 % an hour, by which the tests are put in order. The hours are for two tests (common practice, no source).",
  );
});

it("says what of it counts where the ear was asked before, and how many results are not listed", () => {
  expect(say({ counts: 0.5, share: 0.06 })[0]).toMatch(
    /class, of which 50 % count, for it was listened to before: 6 %\.$/,
  );
  expect(say({ rarer: 1 })[2]).toContain("1 rarer result is not listed, but counted.");
  expect(say({ rarer: 2 })[2]).toContain("2 rarer results are not listed");
});
