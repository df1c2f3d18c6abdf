import { describe, expect, it } from "vitest";
import { explainUnitNow } from "@/app/_jobs/explain-unit.ts";
import { unitReport } from "@/db/assessments.ts";
import { csv, history, modelsFile, newStore, source, take } from "./made-up-files.ts";

const units = source("units.csv", "unit,engine_model,meter_unit\nB-9,petrol-4-a,h\n");

async function fleet() {
  const store = await newStore();
  const rows = [
    ...history("B-1", { tests: 6, rate: 3 }),
    ...history("B-2", { tests: 5, rate: 2 }),
    ...history("B-3", { tests: 1 }),
  ];
  await take(store, [modelsFile, source("tests.csv", csv(rows)), units]);
  return async (unit: string) => {
    const report = await unitReport(store, unit);
    if (report === null) throw new Error(`no report of ${unit}`);
    return { report, explanation: await explainUnitNow(store, report) };
  };
}

describe("explaining a unit from the store", () => {
  it("tells the window and the crossing that its report tells, under the pools in force", async () => {
    const of = await fleet();
    const { report, explanation } = await of("B-1");
    if (explanation?.state !== "explained") throw new Error("B-1 is not explained");
    const { repairs, cylinders } = report.assessment;
    expect(explanation.window).toEqual(repairs[explanation.side]);
    const own = cylinders.find((c) => c.cylinder === explanation.cylinder);
    expect(own?.measures).toContainEqual(explanation.told);
    const tested = report.tests.filter(({ measure }) => measure === explanation.measure);
    expect(tested.length).toBeGreaterThan(2);
    expect(explanation.tests.map(({ date }) => date)).toEqual(tested.map(({ date }) => date));
    expect(explanation.sisters.engines).toBe(2);
  });

  it("has nothing to explain of a unit tested once, or never", async () => {
    const of = await fleet();
    expect((await of("B-3")).explanation).toEqual({ state: "too-few-tests" });
    expect((await of("B-9")).explanation).toEqual({ state: "never-tested" });
  });
});
