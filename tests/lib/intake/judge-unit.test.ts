import { expect, it } from "vitest";
import { testKey } from "@/lib/intake/fact-keys.ts";
import { judgeUnit } from "@/lib/intake/judge-unit.ts";
import { noRows } from "@/lib/intake/unit-rows.ts";
import type { JudgementFact } from "@/lib/schema/facts.ts";
import { judgementFact, model, testFact } from "../sealing/facts.ts";

it("what rows withdraw does not stand in the way of what they tell in its place", () => {
  const models = new Map([["petrol-4-a", model()]]);
  const error = testFact({ date: "2026-05-10", meter: 91_000 });
  const right = testFact({ date: "2026-06-10", meter: 9_100 });
  const before = {
    ...({ engineModel: "petrol-4-a", meterUnit: "km", isListed: true } as const),
    meterReadings: [{ date: error.date, meter: error.meter, reset: false, file: "", line: 2, key: testKey(error) }],
    judgements: [],
  };
  const judged = (verdict: "withdrawn" | "set-aside", cylinder: number | null = null) => {
    const judgements = [judgementFact({ date: error.date, verdict, cylinder })];
    const rows = { ...noRows("V-101"), tests: [right], judgements };
    const { accepted, issues, withChanges } = judgeUnit(rows, before, { changed: models, known: models });
    return [accepted.tests.length, issues.map(({ code }) => code), withChanges.size] as const;
  };
  // Declined, the withdrawal would leave the meter in the way.
  expect(judged("withdrawn")).toEqual([1, [], 1]);
  expect(judged("set-aside")).toEqual([0, ["meter-backwards"], 0]);
  expect(judged("withdrawn", 1)).toEqual([0, ["meter-backwards"], 0]);
});

it("what was withdrawn before does not stand in the way of other rows when its own come again", () => {
  const models = new Map([["petrol-4-a", model()]]);
  const error = testFact({ date: "2026-05-10", meter: 91_000 });
  const right = testFact({ date: "2026-06-10", meter: 9_100 });
  const withdrawal = judgementFact({ date: error.date, verdict: "withdrawn" });
  const before = {
    ...({ engineModel: "petrol-4-a", meterUnit: "km", isListed: true, meterReadings: [] } as const),
    judgements: [withdrawal],
  };
  const judged = (...judgements: readonly JudgementFact[]) => {
    const rows = { ...noRows("V-101"), tests: [error, right], judgements };
    return judgeUnit(rows, before, { changed: models, known: models }).issues.map(({ code }) => code);
  };
  expect(judged()).toEqual([]);
  // Rows that take the withdrawal back make it count again.
  expect(judged({ ...withdrawal, verdict: "none" })).toEqual(["meter-backwards"]);
});
