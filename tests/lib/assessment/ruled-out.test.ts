import { expect, test } from "vitest";
import type { Verdict } from "../../../lib/schema/words.ts";
import { judgementFact, unitFact } from "../sealing/facts.ts";
import { assessedUnit, halfYearly } from "./made-up-fleet.ts";

const rows = [
  [6, 6, 6, 6],
  [6, 7, 6, 6],
  [7, 7, 7, 6],
  [7, 7, 13, 7],
  [7, 8, 26, 7],
];

function questions(verdict: Verdict, date = "2026-06-01"): readonly string[] {
  const judged = judgementFact({ date, test: "leak-down", cylinder: 3, verdict, judgedBy: "W. Lead" });
  return assessedUnit({ units: [unitFact()], tests: halfYearly(rows), judgements: [judged] }).assessment.questions;
}

test("a ruling that leaves the last reading unexplained is asked about, with what it costs", () => {
  const asked = questions("no-fault").filter((words) => words.includes("no fault had begun"));
  expect(asked).toEqual([
    expect.stringMatching(
      /^Cylinder 3 read 26 % on 1 Jun 2026, and W\. Lead says that no fault had begun: the forecast takes that reading for an error and goes on from \d+ %\. Test again, or judge it anew\.$/,
    ),
  ]);
});

test("one that a later test has followed, or that agrees with the reading, is not", () => {
  expect(questions("no-fault", "2025-06-01").join()).not.toContain("no fault had begun");
  expect(questions("fault").join()).not.toContain("no fault had begun");
});
