import { repeatability } from "../repeatability.ts";
import type { TesterComparison, TesterCourse, TesterOffset, TesterTest, TesterVerdict } from "../schema/comparison.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { holmAdjusted } from "../statistics/holm.ts";
import { studentTTwoSided } from "../statistics/student-t.ts";
import { hintsOfFew } from "./few-engines.ts";
import { namedChains, type StepsFound, sharedSteps } from "./shared-steps.ts";
import { type Contrast, type JoinedInstruments, joinedInstruments, type TellingCourse } from "./tester-contrasts.ts";

const surely = 0.05;

/** Of one unit's tests those that one instrument (with one bore) made. */
interface InstrumentUse extends Pick<TesterOffset, "instrument" | "orificeMm" | "tests" | "firstUsed" | "lastUsed"> {
  readonly key: string;
  readonly engines: readonly string[];
  readonly depots: readonly string[];
}

/** What a comparison of instruments takes of one unit; it hangs on that unit's courses alone. */
export interface TestedUnit {
  readonly uses: readonly InstrumentUse[];
  /** Tests that name no instrument. */
  readonly unnamed: number;
  /** Courses that were read with two instruments or more. */
  readonly telling: readonly TellingCourse[];
  readonly chains: ReturnType<typeof namedChains>;
}

/** A comparison with what it was made from, so that the next one need only look at what changed. */
export interface TestersCompared {
  readonly joined: readonly JoinedInstruments[];
  readonly steps: StepsFound;
  readonly comparison: TesterComparison;
}

type NamedTest = TesterTest & { readonly instrument: string; readonly engine: string };

/** `courses`: those of one unit, in order. */
export function testedUnitOf(measure: JudgedMeasure, courses: readonly TesterCourse[]): TestedUnit {
  const named = courses.map((course) => ({
    ...course,
    tests: course.tests.flatMap((test): NamedTest[] =>
      test.instrument === null ? [] : [{ ...test, instrument: test.instrument, engine: course.engine }],
    ),
  }));
  const byKey = new Map<string, NamedTest[]>();
  for (const test of named.flatMap((course) => course.tests)) {
    byKey.set(keyOf(test), [...(byKey.get(keyOf(test)) ?? []), test]);
  }
  return {
    uses: [...byKey].map(([key, tests]) => useOf(key, tests)),
    unnamed: courses.reduce((sum, { tests }) => sum + tests.filter((t) => t.instrument === null).length, 0),
    telling: named
      .filter(({ tests }) => new Set(tests.map(keyOf)).size > 1)
      .map(({ unit, engine, rate, rateSd, tests }) => ({
        ...{ unit, engine, rate, rateSd },
        tests: tests.map((test) => ({ x: test.x, above: test.above, sd: test.sd, key: keyOf(test) })),
      })),
    chains: namedChains(measure, courses),
  };
}

/**
 * Whether one instrument reads higher than the others, from tests of the same engines (see tester-fit.ts). An instrument's
 * offset is told against the mean, weighted by the engines that each shares (4 or more), of those it stays joined with
 * whichever engine is left out and that do not stand out themselves (see tester-contrasts.ts).
 *
 * 95 % intervals stand by themselves; verdicts use Holm's adjustment over all instruments of the measure, and need a
 * difference that matters: the common part of a test's repeatability, 1.5 points of leakage or 2.5 % of compression
 * (engineering judgement).
 *
 * It misleads where an instrument comes together with something else that shifts readings: another depot's air, another
 * hand, a repair that nobody recorded.
 *
 * @param units ascending by unit
 * @param before the comparison of these units with some others, by their identity: it spares what did not change. What is
 * made is the same to the last digit without it. A generator, so that whoever calls it can do other work in between: each step
 * is a part of the whole that takes tens of milliseconds in a large fleet.
 */
export function* comparingTested(
  measure: JudgedMeasure,
  units: readonly TestedUnit[],
  before: TestersCompared | null = null,
): Generator<void, TestersCompared> {
  const byKey = new Map<string, InstrumentUse[]>();
  for (const use of units.flatMap(({ uses }) => uses)) {
    const others = byKey.get(use.key);
    if (others === undefined) byKey.set(use.key, [use]);
    else others.push(use);
  }
  const keys = [...byKey.keys()].toSorted();
  yield;
  const matters = measure === "leak-down" ? repeatability(measure, 0).shared : repeatability(measure, 100).shared;
  const telling = units.flatMap((unit) => unit.telling);
  const { joined, contrastOf } = yield* joinedInstruments(keys, telling, before?.joined);
  yield;
  const { contrasts, adjusted } = settledContrasts(contrastOf, keys.length, matters);
  yield;
  const chains = units.flatMap((unit) => unit.chains);
  const steps = yield* sharedSteps(measure, chains, before?.steps);
  const nameOf = (j: number) => keys[j]?.split("\n")[0] as string;
  const comparison: TesterComparison = {
    measure,
    matters,
    steps: steps.steps,
    hints: hintsOfFew(measure, chains, steps.steps),
    unnamed: units.reduce((sum, { unnamed }) => sum + unnamed, 0),
    testers: keys.map((key, j): TesterOffset => {
      const { against, shared, units: of, soFar, estimate } = contrasts[j] as Contrast;
      const offset = estimate === null ? null : { ...estimate.told, probability: adjusted[j] as number };
      return {
        ...usedOf(byKey.get(key) as InstrumentUse[]),
        shared,
        units: of,
        against: against.map(nameOf),
        soFar: soFar === null ? null : { ...soFar, instrument: nameOf(soFar.instrument) },
        offset,
        verdict: verdictOf(offset, matters),
      };
    }),
  };
  return { joined, steps, comparison };
}

const keyOf = ({ instrument, orificeMm }: Pick<NamedTest, "instrument" | "orificeMm">) =>
  `${instrument}\n${orificeMm ?? ""}`;

/** `tests`: at least one. */
function useOf(key: string, tests: readonly NamedTest[]): InstrumentUse {
  const { instrument, orificeMm } = tests[0] as NamedTest;
  const dates = tests.map((t) => t.date).toSorted();
  return {
    key,
    instrument,
    orificeMm,
    tests: tests.length,
    engines: [...new Set(tests.map((t) => t.engine))],
    firstUsed: dates[0] as string,
    lastUsed: dates.at(-1) as string,
    depots: [...new Set(tests.flatMap((t) => t.depot ?? []))],
  };
}

/** One instrument's use over all units. `uses`: at least one. */
function usedOf(uses: readonly InstrumentUse[]) {
  const { instrument, orificeMm } = uses[0] as InstrumentUse;
  return {
    instrument,
    orificeMm,
    tests: uses.reduce((sum, { tests }) => sum + tests, 0),
    engines: new Set(uses.flatMap(({ engines }) => engines)).size,
    firstUsed: uses.map(({ firstUsed }) => firstUsed).toSorted()[0] as string,
    lastUsed: uses
      .map(({ lastUsed }) => lastUsed)
      .toSorted()
      .at(-1) as string,
    depots: [...new Set(uses.flatMap(({ depots }) => depots))].toSorted(),
  };
}

/**
 * One instrument that reads high makes all others look low beside a mean that it is part of. So the surest that stands
 * out is taken out of that mean, and the rest are compared anew, until none is left that does.
 */
function settledContrasts(
  contrastOf: (j: number, standOut: ReadonlySet<number>) => Contrast,
  instruments: number,
  matters: number,
) {
  const standOut = new Set<number>();
  for (;;) {
    const contrasts = Array.from({ length: instruments }, (_, j) => contrastOf(j, standOut));
    const adjusted = adjustedProbabilities(contrasts);
    const sureness = (j: number) => {
      const { told } = contrasts[j]?.estimate ?? {};
      const verdict = verdictOf(told === undefined ? null : { ...told, probability: adjusted[j] as number }, matters);
      return told !== undefined && (verdict === "high" || verdict === "low")
        ? Math.abs(told.mean / told.standardError)
        : 0;
    };
    const [surest] = [...contrasts.keys()]
      // Of two that only each other speaks of, neither can be told to be the one that is off.
      .filter((j) => !standOut.has(j) && (contrasts[j] as Contrast).against.length > 1 && sureness(j) > 0)
      .sort((a, b) => sureness(b) - sureness(a));
    if (surest === undefined) return { contrasts, adjusted };
    standOut.add(surest);
  }
}

/** Two instruments that only each other speaks of are one comparison, not two. */
function adjustedProbabilities(contrasts: readonly Contrast[]): number[] {
  const isMirror = (j: number) => {
    const [other, ...more] = (contrasts[j] as Contrast).against;
    return other !== undefined && more.length === 0 && other < j && contrasts[other]?.estimate !== null;
  };
  const compared = [...contrasts.keys()].filter((j) => contrasts[j]?.estimate !== null && !isMirror(j));
  const found = holmAdjusted(
    compared.map((j) => {
      const { told, freedom } = (contrasts[j] as Contrast).estimate as NonNullable<Contrast["estimate"]>;
      return studentTTwoSided(told.mean / Math.max(told.standardError, Number.MIN_VALUE), freedom);
    }),
  );
  const byNumber = new Map(compared.map((j, i) => [j, found[i] as number]));
  return contrasts.map(({ against }, j) => byNumber.get(j) ?? byNumber.get(against[0] ?? -1) ?? 1);
}

function verdictOf(offset: TesterOffset["offset"], matters: number): TesterVerdict {
  if (offset === null) return "too-few";
  if (offset.probability >= surely) return "none";
  if (Math.abs(offset.mean) < matters) return "small";
  return offset.mean > 0 ? "high" : "low";
}
