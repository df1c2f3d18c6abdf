import { repeatability } from "../repeatability.ts";
import type { TesterComparison, TesterCourse, TesterOffset, TesterTest, TesterVerdict } from "../schema/comparison.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { holmAdjusted } from "../statistics/holm.ts";
import { studentTQuantile, studentTTwoSided } from "../statistics/student-t.ts";
import { joinedClasses } from "./joined.ts";
import { sharedSteps } from "./shared-steps.ts";
import { type FitCourse, fitTesters } from "./tester-fit.ts";

/** With fewer engines in common no interval is told. */
const fewestShared = 4;
const surely = 0.05;
/** Engines are left out one by one up to so many, else in as many groups. */
const mostGroups = 60;
const mostUnits = 12;

type NamedTest = TesterTest & { readonly instrument: string; readonly unit: string; readonly engine: string };

/**
 * Whether one instrument reads higher than the others, from tests of the same engines (see tester-fit.ts). An instrument's
 * offset is told against the mean, weighted by the engines that each shares (4 or more), of those it stays joined with
 * whichever engine is left out and that do not stand out themselves.
 *
 * Standard error: by leaving out one engine at a time (the jackknife over clusters), each time with the weights
 * fitted anew in two rounds, so that what an engine's tests have in common is counted once; with m engines that the instrument shares with others the
 * squares are summed and multiplied by (m − 1)/m, and Student's t has m − 1 degrees of freedom. 95 % intervals stand by
 * themselves; verdicts use Holm's adjustment over all instruments of the measure, and need a difference that matters: the
 * common part of a test's repeatability, 1.5 points of leakage or 2.5 % of compression (engineering judgement).
 *
 * It misleads where an instrument comes together with something else that shifts readings: another depot's air, another
 * hand, a repair that nobody recorded.
 */
export function compareTesters(measure: JudgedMeasure, courses: readonly TesterCourse[]): TesterComparison {
  const named = courses.map((course) => ({
    ...course,
    tests: course.tests.flatMap((test): NamedTest[] =>
      test.instrument === null
        ? []
        : [{ ...test, instrument: test.instrument, unit: course.unit, engine: course.engine }],
    ),
  }));
  const keys = [...new Set(named.flatMap((course) => course.tests.map(keyOf)))].toSorted();
  const numberOf = new Map(keys.map((key, i) => [key, i]));
  const telling = named
    .map(
      ({ unit, engine, rate, rateSd, tests }): FitCourse => ({
        unit,
        engine,
        rate,
        rateSd,
        tests: tests.map((test) => ({ ...test, instrument: numberOf.get(keyOf(test)) as number })),
      }),
    )
    .filter(({ tests }) => new Set(tests.map((t) => t.instrument)).size > 1);
  const matters = measure === "leak-down" ? repeatability(measure, 0).shared : repeatability(measure, 100).shared;
  const { contrasts, adjusted } = settledContrasts(contrastsBetween(telling, keys.length), keys.length, matters);
  const byKey = new Map<string, NamedTest[]>(keys.map((key) => [key, []]));
  for (const test of named.flatMap((course) => course.tests)) byKey.get(keyOf(test))?.push(test);
  const nameOf = (j: number) => keys[j]?.split("\n")[0] as string;
  return {
    measure,
    matters,
    steps: sharedSteps(measure, courses),
    unnamed: courses.reduce((sum, { tests }) => sum + tests.filter((t) => t.instrument === null).length, 0),
    testers: keys.map((key, j): TesterOffset => {
      const { against, shared, units, soFar, estimate } = contrasts[j] as Contrast;
      const offset = estimate === null ? null : { ...estimate.told, probability: adjusted[j] as number };
      return {
        ...usedOf(byKey.get(key) as NamedTest[]),
        shared,
        units,
        against: against.map(nameOf),
        soFar: soFar === null ? null : { ...soFar, instrument: nameOf(soFar.instrument) },
        offset,
        verdict: verdictOf(offset, matters),
      };
    }),
  };
}

const keyOf = ({ instrument, orificeMm }: Pick<NamedTest, "instrument" | "orificeMm">) =>
  `${instrument}\n${orificeMm ?? ""}`;

function usedOf(tests: readonly NamedTest[]) {
  const [first] = tests;
  if (first === undefined) throw new RangeError("an instrument without a test");
  const dates = tests.map((t) => t.date).toSorted();
  return {
    instrument: first.instrument,
    orificeMm: first.orificeMm,
    tests: tests.length,
    engines: new Set(tests.map((t) => t.engine)).size,
    firstUsed: dates[0] as string,
    lastUsed: dates.at(-1) as string,
    depots: [...new Set(tests.flatMap((t) => t.depot ?? []))].toSorted(),
  };
}

interface Contrast {
  readonly soFar: { readonly instrument: number; readonly engines: number; readonly mean: number } | null;
  readonly against: readonly number[];
  readonly shared: number;
  readonly units: readonly string[];
  readonly estimate: {
    readonly told: Pick<NonNullable<TesterOffset["offset"]>, "mean" | "standardError" | "low" | "high">;
    readonly freedom: number;
  } | null;
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

function contrastsBetween(courses: readonly FitCourse[], instruments: number) {
  const engines = [...new Set(courses.map((course) => course.engine))];
  const groups = Math.min(engines.length, mostGroups);
  const groupOf = new Map(engines.map((engine, i) => [engine, i % groups]));
  const grouped = courses.map((course) => ({
    course,
    group: groupOf.get(course.engine) as number,
    instruments: [...new Set(course.tests.map((t) => t.instrument))],
  }));
  const classes = joinedClasses(instruments, grouped);
  const fit = fitTesters(courses, instruments);
  const without = Array.from({ length: groups }, (_, left) => {
    const places = [...grouped.keys()].filter((i) => grouped[i]?.group !== left);
    const kept = places.map((i) => courses[i] as FitCourse);
    return fitTesters(kept, instruments, { fit, places }).offsets;
  });
  const ties = Array.from({ length: instruments }, (_, j) => {
    const own = grouped.filter((part) => part.instruments.includes(j));
    return {
      shared: new Set(own.map(({ course }) => course.engine)).size,
      units: [...new Set(own.map(({ course }) => course.unit))].toSorted(),
      partner: partnerOf(j, own),
      telling: new Set(own.map(({ group }) => group)).size,
    };
  });
  return (j: number, standOut: ReadonlySet<number>): Contrast => {
    const { shared, units, telling, partner } = ties[j] as (typeof ties)[number];
    const isShared = (k: number) => (ties[k] as (typeof ties)[number]).shared >= fewestShared;
    const joined = [...classes.keys()].filter((k) => k !== j && classes[k] === classes[j] && isShared(k));
    const plain = joined.filter((k) => !standOut.has(k));
    const against = plain.length > 0 ? plain : joined;
    const soFar =
      partner === null
        ? null
        : { ...partner, mean: (fit.offsets[j] as number) - (fit.offsets[partner.instrument] as number) };
    const common = { against, shared, units: units.slice(0, mostUnits), soFar };
    if (against.length === 0 || shared < fewestShared || telling < 2) return { ...common, estimate: null };
    const weightOf = (k: number) => (ties[k] as (typeof ties)[number]).shared;
    const total = against.reduce((sum, k) => sum + weightOf(k), 0);
    const contrast = (offsets: Float64Array) =>
      (offsets[j] as number) - against.reduce((sum, k) => sum + (weightOf(k) / total) * (offsets[k] as number), 0);
    const mean = contrast(fit.offsets);
    const squares = without.reduce((sum, offsets) => sum + (contrast(offsets) - mean) ** 2, 0);
    const standardError = Math.sqrt((squares * (telling - 1)) / telling);
    const freedom = telling - 1;
    const reach = standardError * studentTQuantile(0.975, freedom);
    const told = { mean, standardError, low: mean - reach, high: mean + reach };
    return { ...common, estimate: { told, freedom } };
  };
}

/** The other instrument that most of the engines were read with; null: none was. */
function partnerOf(j: number, own: readonly { readonly course: FitCourse; readonly instruments: readonly number[] }[]) {
  const engines = new Map<number, Set<string>>();
  for (const { course, instruments } of own) {
    for (const k of instruments) if (k !== j) engines.set(k, (engines.get(k) ?? new Set()).add(course.engine));
  }
  const [most] = [...engines].sort(([a, of], [b, others]) => others.size - of.size || a - b);
  return most === undefined ? null : { instrument: most[0], engines: most[1].size };
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
