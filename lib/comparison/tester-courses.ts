import { rounded } from "../assessment/rounding.ts";
import { madeAfter, worseSign } from "../condition/series.ts";
import type { ConditionedEngine, ConditionedTest, Doubt, UnexplainedImprovement } from "../condition/types.ts";
import type { WearPool } from "../projection/types.ts";
import type { TesterCourse, TesterTest } from "../schema/comparison.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import type { SealedReading, SealedTest, UnitHistory } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";

/**
 * An engine's tests as wholes, to tell what its instruments add: each test by the middle of its readings against what the
 * same cylinders usually read. A new course starts where a repair, or a step that nobody explained and that did not come
 * with another instrument, set the engine's level anew.
 *
 * Readings doubted for what was seen (slow cranking, not at top dead centre …) are left out; those doubted only because
 * they do not fit the engine's other tests stay, for an instrument that reads wrong is found by just that.
 */
export function testerCourses(
  unit: UnitHistory,
  conditioned: ConditionedEngine,
  poolOf: (measure: JudgedMeasure) => WearPool,
): TesterCourse[] {
  return judgedMeasures.flatMap((measure) => {
    const pool = poolOf(measure);
    const courses = new Map<number, Usable[]>();
    const begun = new Map<number, TesterCourse["begunBy"]>();
    let lastRepairs = 0;
    const usable = conditioned.tests.flatMap((test) => usableOf(test, measure) ?? []);
    for (const test of usable) {
      const { repairs, steps } = beginningsBefore(conditioned, measure, usable, test.test);
      const others = courses.get(repairs + steps);
      if (others === undefined) {
        courses.set(repairs + steps, [test]);
        begun.set(repairs + steps, courses.size === 1 ? null : repairs > lastRepairs ? "repair" : "step");
      } else others.push(test);
      lastRepairs = repairs;
    }
    return [...courses].flatMap(
      ([number, tests]) => courseOf(tests, measure, pool, unit, begun.get(number) ?? null) ?? [],
    );
  });
}

interface Usable {
  readonly test: SealedTest;
  readonly readings: readonly Pick<SealedReading, "cylinder" | "value" | "referralSd" | "roundingSd">[];
}

/** What only the other tests say against a reading. */
const foundByOthers: ReadonlySet<Doubt["code"]> = new Set([
  "all-cylinders-off",
  "last-of-few",
  "instrument-off",
  "too-good",
]);
const leastWeight = 0.5;

function usableOf({ test, doubts }: ConditionedTest, measure: JudgedMeasure): Usable | null {
  if (test.measure !== measure) return null;
  const readings = test.readings.filter(({ cylinder, value }) => {
    const own = doubts.filter((d) => !foundByOthers.has(d.code) && (d.cylinder === null || d.cylinder === cylinder));
    return value > 0 && own.reduce((weight, d) => weight * d.weight, 1) >= leastWeight;
  });
  return readings.length === 0 ? null : { test, readings };
}

const testerOf = ({ instrument, setUp }: SealedTest) => `${instrument} ${setUp.orificeMm}`;

/** Repairs and steps before the test. An adjustment may set a level anew as well; fitting to another unit does not. */
function beginningsBefore(
  { history, improvements }: ConditionedEngine,
  measure: JudgedMeasure,
  usable: readonly Usable[],
  test: SealedTest,
): { readonly repairs: number; readonly steps: number } {
  const repairs = history.repairs.filter((r) => r.scope !== "engine-swap" && madeAfter(test, r)).length;
  const isStep = ({ measure: of, cylinders, beforeX, afterX }: UnexplainedImprovement) => {
    if (of !== measure || test.x < afterX || 2 * cylinders.length < history.model.cylinders) return false;
    const before = usable.findLast((u) => u.test.x <= beforeX)?.test;
    const after = usable.find((u) => u.test.x >= afterX)?.test;
    return before !== undefined && after !== undefined && testerOf(before) === testerOf(after);
  };
  return { repairs, steps: improvements.filter(isStep).length };
}

function courseOf(
  usable: readonly Usable[],
  measure: JudgedMeasure,
  pool: WearPool,
  { unit, engine, model }: UnitHistory,
  begunBy: TesterCourse["begunBy"],
): TesterCourse | null {
  const byCylinder = new Map<number, number[]>();
  for (const { cylinder, value } of usable.flatMap((u) => u.readings)) {
    const values = byCylinder.get(cylinder);
    if (values === undefined) byCylinder.set(cylinder, [value]);
    else values.push(value);
  }
  const usual = new Map([...byCylinder].map(([cylinder, values]) => [cylinder, median(values)]));
  const level = median([...usual.values()]);
  // Compression is told in per cent of itself: a gauge's error grows with what it reads, and models then compare.
  const scale = measure === "leak-down" ? 1 : 100 / level;
  const tests = usable.flatMap(({ test, readings }): TesterTest[] => {
    if (2 * readings.length < model.cylinders) return [];
    const apart = median(
      readings.map(({ cylinder, value }) => {
        const own = usual.get(cylinder) as number;
        return measure === "leak-down" ? value - own : (100 * (value - own)) / own;
      }),
    );
    return [
      {
        x: test.x,
        date: test.date,
        instrument: test.instrument,
        orificeMm: measure === "leak-down" ? test.setUp.orificeMm : null,
        depot: test.depot,
        testedBy: test.testedBy,
        above: rounded(apart, 3),
        sd: rounded(scale * testSd(pool, level, readings), 3),
      },
    ];
  });
  if (tests.length === 0) return null;
  const rate = worseSign[measure] * scale * pool.rateMean;
  return { unit, engine, measure, rate, rateSd: scale * pool.rateSd, usual: rounded(level, 3), begunBy, tests };
}

/** Of the middle of a test's readings: the common error whole, their own as far as a median averages them. */
function testSd(pool: WearPool, level: number, readings: Usable["readings"]): number {
  const n = Math.max(readings.length, Math.PI / 2);
  const rounding = readings.reduce((sum, r) => sum + r.roundingSd ** 2, 0) / readings.length;
  const own = pool.readingSd ** 2 + (pool.readingShare * level) ** 2 + rounding;
  const referral = readings.reduce((sum, r) => sum + r.referralSd ** 2, 0) / readings.length;
  return Math.sqrt(pool.testSd ** 2 + (own * Math.PI) / 2 / n + referral);
}
