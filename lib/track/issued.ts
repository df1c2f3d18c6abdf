import { rounded } from "../assessment/rounding.ts";
import { daysBetween } from "../calendar.ts";
import { conditionEngine } from "../condition/condition.ts";
import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import type { MeasureAssessment, UnitAssessment } from "../schema/assessment.ts";
import type { FleetFacts, IsoDate } from "../schema/facts.ts";
import { fewestOutcomes, type IssuedRecord, type LimitCase } from "../schema/track-record.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import { indexFleet } from "../sealing/seal.ts";
import type { SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { brierLoss } from "../statistics/scores.ts";
import { lifeAround, limitMet } from "./life.ts";
import { cylindersOf, rangeHeld } from "./limit-scores.ts";
import { factParts } from "./past.ts";
import { outcomesWithin, weightedMean } from "./within.ts";

/** What an assessment told, as it was issued. */
export interface IssuedForecast extends Pick<UnitAssessment, "unit" | "meter"> {
  readonly asOf: IsoDate;
  readonly lastTestDate: IsoDate;
  readonly cylinders: readonly { readonly cylinder: number; readonly measures: readonly MeasureAssessment[] }[];
}

/** How many assessments were issued in all, and for which dates. */
export type IssuedSpan = Pick<IssuedRecord, "assessments" | "from" | "to">;

interface IssuedCase {
  readonly engine: string;
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
  readonly made: IsoDate;
  readonly held: boolean | null;
  readonly met: boolean;
  /** Told chance to meet the limit within a year, where one was told. */
  readonly within: ToldYear | null;
  readonly level: { readonly came: IsoDate; readonly error: number } | null;
}

type ToldYear = Pick<LimitCase, "engine" | "measure" | "cylinder" | "made" | "metOn" | "until"> & {
  readonly told: number;
};

/** A test so soon after another repeats it, mostly because it was in doubt. */
const shortestDays = 14;

/**
 * How forecasts turned out as they were told at the time, by whichever version of the program: windows from early to late,
 * "within a year", and the level carried forward by the rate. Step by step like a back-test.
 *
 * @param issued of each unit and last test one: told again without a new test, it is the same forecast
 */
export function* issuedRecord(
  facts: FleetFacts,
  issued: readonly IssuedForecast[],
  { asOf, span }: { readonly asOf: IsoDate; readonly span: IssuedSpan },
): Generator<number, IssuedRecord> {
  const byUnit = new Map<string, IssuedForecast[]>();
  for (const one of issued) {
    const known = byUnit.get(one.unit);
    if (known === undefined) byUnit.set(one.unit, [one]);
    else known.push(one);
  }
  const lastTests = new Map<string, IsoDate>();
  for (const { unit, date } of facts.tests) if (date > (lastTests.get(unit) ?? "")) lastTests.set(unit, date);
  const cases: IssuedCase[] = [];
  const parts = factParts(facts);
  for (const [p, part] of parts.entries()) {
    const own = [...new Set(part.tests.map(({ unit }) => unit))]
      .flatMap((unit) => byUnit.get(unit) ?? [])
      .filter((one) => (lastTests.get(one.unit) ?? "") > one.asOf);
    if (own.length === 0) continue;
    yield p / parts.length;
    cases.push(...casesOfPart(part, own, asOf));
  }
  return { ...span, ...summary(cases, asOf) };
}

function casesOfPart(part: FleetFacts, issued: readonly IssuedForecast[], asOf: IsoDate): IssuedCase[] {
  const index = indexFleet(part, { asOf });
  const engines = index.engineKeys.flatMap((key) => {
    try {
      return [conditionEngine(index.seal(key))];
    } catch {
      return [];
    }
  });
  return issued.flatMap((one) => {
    const isIts = (test: SealedTest) =>
      test.unit === one.unit && test.date === one.lastTestDate && test.measure !== "compression-wet";
    const engine = engines.find(({ tests }) => tests.some(({ test }) => isIts(test)));
    const from = engine?.tests.findLast(({ test }) => isIts(test))?.test;
    return engine === undefined || from === undefined ? [] : casesOfIssue(engine, from, one);
  });
}

function casesOfIssue(engine: ConditionedEngine, from: SealedTest, told: IssuedForecast): IssuedCase[] {
  const { asOf, meter } = told;
  const since = meter.value - from.meter;
  // A meter that was replaced in between counts from elsewhere: the forecast then begins at its test.
  const x = from.x + Math.max(0, since);
  const cases: IssuedCase[] = [];
  for (const { cylinder, measures } of told.cylinders) {
    for (const of of measures) {
      const measure = judgedMeasures.find((word) => word === of.measure);
      if (measure === undefined || of.level === null) continue;
      const life = lifeAround(engine, measure, cylinder, from);
      const later = life.readings.filter((r) => daysBetween(asOf, r.date) >= shortestDays);
      const [next, last] = [later[0], later.at(-1)];
      if (next === undefined || last === undefined || life.at < 0) continue;
      const sign = worseSign[measure];
      const rate = (of.rate?.perThousand ?? 0) / 1000;
      const error = Math.abs(of.level + rate * (next.x - x) - sign * next.badness);
      const common = { engine: engine.history.engine, measure, cylinder, made: asOf };
      const level = { came: next.date, error };
      const { crossing, limit } = of;
      if (crossing === null || limit === null || crossing.status === "crossed" || crossing.status === "too-few-tests") {
        cases.push({ ...common, level, held: null, met: false, within: null });
        continue;
      }
      const met = limitMet(life, sign * limit);
      const ahead = (at: number | null) => (at === null ? null : at - meter.value);
      const followed = { met: met === null ? null : Math.max(0, met.x - x), followed: last.x - x };
      const told = crossing.probabilityWithinYear;
      cases.push({
        ...common,
        level,
        held: rangeHeld(followed, ahead(crossing.meter.p10), ahead(crossing.meter.p90)),
        met: met !== null,
        within: told === null ? null : { ...common, told, metOn: met?.date ?? null, until: last.date },
      });
    }
  }
  return cases;
}

function summary(cases: readonly IssuedCase[], asOf: IsoDate): Omit<IssuedRecord, "assessments" | "from" | "to"> {
  const testsOf = (some: readonly IssuedCase[]) =>
    new Set(some.flatMap((c) => (c.level === null ? [] : [`${c.engine}\u0000${c.measure}\u0000${c.level.came}`]))).size;
  const { known, isWhole } = outcomesWithin(
    cases.flatMap((c) => c.within ?? []),
    365,
    asOf,
  );
  const cylinders = cylindersOf(known.map(({ one }) => one));
  return {
    forecasts: cases.length,
    outcomes: testsOf(cases),
    window: {
      held: cases.filter((c) => c.held === true).length,
      missed: cases.filter((c) => c.held === false).length,
      open: cases.filter((c) => c.held === null).length,
      met: cases.filter((c) => c.met).length,
    },
    levels: judgedMeasures.flatMap((measure) => {
      const some = cases.filter((c) => c.measure === measure);
      if (some.length === 0) return [];
      const outcomes = testsOf(some);
      const errors = some.flatMap((c) => (c.level === null ? [] : [c.level.error]));
      const medianError = outcomes >= fewestOutcomes ? rounded(median(errors), 3) : null;
      return [{ measure, outcomes, readings: errors.length, medianError }];
    }),
    within: {
      forecasts: known.length,
      met: known.filter(({ came }) => came).length,
      cylinders,
      brier:
        isWhole && cylinders >= fewestOutcomes
          ? rounded(
              weightedMean(known, ({ one, came }) => brierLoss(one.told, came)),
              4,
            )
          : null,
    },
  };
}
