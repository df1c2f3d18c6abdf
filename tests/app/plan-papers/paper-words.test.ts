import { expect, it } from "vitest";
import { notBookedWords } from "@/app/_ui/plan-papers/paper-words.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);

it("says of a unit without a booking who dropped it, and not that the same waits for a test", () => {
  const waiting = [
    { unit: "V-104", of: "topEnd", chance: 0.7 },
    { unit: "V-104", of: "bottomEnd", chance: 0.4 },
  ] as const;
  const plan = { notFitted: [], waiting, leftOut: [], currency: "XXX", weeks: 52 };
  const told = (dropped: Parameters<typeof notBookedWords>[2]["dropped"]) =>
    notBookedWords(f, "V-104", { plan, made: null, dropped });
  expect(told([])).toContain("Top-end: 70");
  const words = told([
    { unit: "V-104", scope: "top-end", by: "A. Planner" },
    { unit: "V-105", scope: "bottom-end", by: "A. Planner" },
  ]);
  expect(words).toMatch(/^Top-end repair: dropped by A. Planner/);
  expect(words).not.toContain("Top-end: 70");
  expect(words).toContain("Bottom-end: 40");
});
