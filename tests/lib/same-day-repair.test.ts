import { expect, test } from "vitest";
import { measureCharts } from "@/lib/assessment/charts.ts";
import { assessedUnit, halfYearly, leakDown } from "./assessment/made-up-fleet.ts";
import { reading, repairFact, unitFact } from "./sealing/facts.ts";

/** The commonest order of a workshop: tested in the morning, repaired the same day, the meter written down once. */
const day = ["2026-06-10", 100_400] as const;
const found = leakDown(...day, [6, 6, 31, 6], {
  readings: [6, 6, 31, 6].map((value, i) =>
    reading({ cylinder: i + 1, value, heardAt: value === 31 ? ["exhaust"] : ["crankcase"] }),
  ),
});
const repair = repairFact({ date: day[0], meter: day[1], scope: "top-end", cylinders: [3] });
const sound = halfYearly([
  [6, 6, 6, 6],
  [6, 6, 6, 6],
  [6, 6, 7, 6],
]);

function unitWith(tests: readonly ReturnType<typeof leakDown>[]) {
  const assessed = assessedUnit({ units: [unitFact()], tests: [...sound, ...tests], repairs: [repair] });
  const chart = measureCharts(assessed).find((c) => c.measure === "leak-down");
  const third = assessed.assessment.cylinders[2];
  return {
    lives: chart?.cylinders[2]?.points.map((p) => p.life),
    weights: chart?.cylinders[2]?.points.map((p) => p.weight),
    band: third?.band,
    exhaust: third?.causes.find((c) => c.cause === "exhaust-valve")?.probability ?? Number.NaN,
    warnings: assessed.assessment.warnings,
    questions: assessed.assessment.questions,
  };
}

test("a test and a repair at one meter reading on one day: the test found what the repair cured", () => {
  const told = unitWith([found]);
  expect(told.lives).toEqual([0, 0, 0, 0]);
  expect(told.band).toBeNull();
  expect(told.exhaust).toBeLessThan(0.3);
  expect(told.warnings).toContain(
    "Test and repair on the same day at the same meter, 10 Jun 2026: the test is taken as made before the repair",
  );
});

test("tested again the same day, as another attempt: the last one begins the new life and sets nothing aside", () => {
  const told = unitWith([found, leakDown(...day, [6, 6, 7, 6], { attempt: 2 })]);
  expect(told.lives).toEqual([0, 0, 0, 0, 1]);
  expect(told.weights?.slice(-2)).toEqual([1, 1]);
  expect(told.band).toBe("sound");
  expect(told.questions).toEqual([]);
  expect(told.warnings).toContain(
    "Test and repair on the same day at the same meter, 10 Jun 2026: the last attempt is taken as made after the repair, what came before it as made before",
  );
});
