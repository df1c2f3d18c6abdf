import type { TesterCourse, TesterOffset, TesterTest } from "../schema/comparison.ts";
import { studentTQuantile } from "../statistics/student-t.ts";
import { joinedClasses, joiner } from "./joined.ts";
import { isSameList } from "./same-list.ts";
import { type FitCourse, fitTesters } from "./tester-fit.ts";

/** With fewer engines in common no interval is told. */
const fewestShared = 4;
/** Engines are left out one by one up to so many, else in as many groups. */
const mostGroups = 60;
const mostUnits = 12;

/** A course that two instruments or more read: it says something of their difference. */
export interface TellingCourse extends Pick<TesterCourse, "unit" | "engine" | "rate" | "rateSd"> {
  readonly tests: readonly (Pick<TesterTest, "x" | "above" | "sd"> & { readonly key: string })[];
}

/** What one instrument is told to differ by from others; instruments by their numbers. */
export interface Contrast {
  readonly soFar: { readonly instrument: number; readonly engines: number; readonly mean: number } | null;
  readonly against: readonly number[];
  readonly shared: number;
  readonly units: readonly string[];
  readonly estimate: {
    readonly told: Pick<NonNullable<TesterOffset["offset"]>, "mean" | "standardError" | "low" | "high">;
    readonly freedom: number;
  } | null;
}

type ContrastOf = (j: number, standOut: ReadonlySet<number>) => Contrast;

/** Instruments that courses join with each other, and with no others: what one tells says nothing of the rest. */
export interface JoinedInstruments {
  /** Ascending; numbered by their place here. */
  readonly keys: readonly string[];
  readonly courses: readonly TellingCourse[];
  readonly contrastOf: ContrastOf;
}

const alone: Contrast = { soFar: null, against: [], shared: 0, units: [], estimate: null };

/**
 * Parts instruments into those that are joined, each part with its own fit, and gives the contrast of each.
 *
 * @param keys ascending; numbered by their place here
 * @param before parts of an earlier comparison: one of the same instruments and courses, by identity, is not fitted again
 */
export function* joinedInstruments(
  keys: readonly string[],
  courses: readonly TellingCourse[],
  before: readonly JoinedInstruments[] = [],
): Generator<void, { readonly joined: readonly JoinedInstruments[]; readonly contrastOf: ContrastOf }> {
  const numberOf = new Map(keys.map((key, i) => [key, i]));
  const { find, join } = joiner(keys.length);
  const numbersOf = ({ tests }: TellingCourse) => tests.map(({ key }) => numberOf.get(key) as number);
  for (const course of courses) {
    const [first, ...others] = numbersOf(course);
    for (const other of others) join(first as number, other);
  }
  const parts = new Map<number, { keys: string[]; numbers: number[]; courses: TellingCourse[] }>();
  for (const [j, key] of keys.entries()) {
    const part = parts.get(find(j)) ?? { keys: [], numbers: [], courses: [] };
    part.keys.push(key);
    part.numbers.push(j);
    parts.set(find(j), part);
  }
  for (const course of courses) parts.get(find(numbersOf(course)[0] as number))?.courses.push(course);
  const known = new Map(before.map((part) => [part.keys[0], part]));
  const fitted: { readonly numbers: readonly number[]; readonly joined: JoinedInstruments }[] = [];
  for (const { numbers, ...part } of parts.values()) {
    if (part.courses.length === 0) continue;
    const same = known.get(part.keys[0]);
    const isSame = same !== undefined && isSameList(same.keys, part.keys) && isSameList(same.courses, part.courses);
    fitted.push({
      numbers,
      joined: isSame ? same : { ...part, contrastOf: yield* contrastsBetween(part.keys, part.courses) },
    });
  }
  const placeOf = new Map(fitted.flatMap((part) => part.numbers.map((j, place) => [j, { part, place }] as const)));
  return {
    joined: fitted.map((part) => part.joined),
    contrastOf: (j, standOut) => {
      const place = placeOf.get(j);
      if (place === undefined) return alone;
      const { numbers, joined } = place.part;
      const within = new Set([...standOut].flatMap((k) => (numbers.includes(k) ? [numbers.indexOf(k)] : [])));
      const { against, soFar, ...contrast } = joined.contrastOf(place.place, within);
      return {
        ...contrast,
        against: against.map((k) => numbers[k] as number),
        soFar: soFar === null ? null : { ...soFar, instrument: numbers[soFar.instrument] as number },
      };
    },
  };
}

/**
 * The offset of each instrument against the mean of those that it stays joined with whichever engine is left out and that
 * do not stand out, weighted by the engines that each shares (4 or more).
 *
 * Standard error: by leaving out one engine at a time (the jackknife over clusters), each time with the weights
 * fitted anew in two rounds, so that what an engine's tests have in common is counted once; with m engines that the instrument shares with others the
 * squares are summed and multiplied by (m − 1)/m, and Student's t has m − 1 degrees of freedom.
 */
function* contrastsBetween(keys: readonly string[], telling: readonly TellingCourse[]): Generator<void, ContrastOf> {
  const instruments = keys.length;
  const numberOf = new Map(keys.map((key, i) => [key, i]));
  const courses = telling.map(
    ({ tests, ...course }): FitCourse => ({
      ...course,
      tests: tests.map(({ key, ...test }) => ({ ...test, instrument: numberOf.get(key) as number })),
    }),
  );
  yield;
  const engines = [...new Set(courses.map((course) => course.engine))];
  const groups = Math.min(engines.length, mostGroups);
  const groupOf = new Map(engines.map((engine, i) => [engine, i % groups]));
  const grouped = courses.map((course) => ({
    course,
    group: groupOf.get(course.engine) as number,
    instruments: [...new Set(course.tests.map((t) => t.instrument))],
  }));
  yield;
  const classes = joinedClasses(instruments, grouped);
  yield;
  const fit = yield* fitTesters(courses, instruments);
  yield;
  const without: Float64Array[] = [];
  for (let left = 0; left < groups; left++) {
    without.push(fit.without((place) => grouped[place]?.group === left));
    yield;
  }
  const ties: Tie[] = [];
  for (let j = 0; j < instruments; j++) {
    const own = grouped.filter((part) => part.instruments.includes(j));
    ties.push({
      shared: new Set(own.map(({ course }) => course.engine)).size,
      units: [...new Set(own.map(({ course }) => course.unit))].toSorted(),
      partner: partnerOf(j, own),
      telling: new Set(own.map(({ group }) => group)).size,
    });
    yield;
  }
  return (j: number, standOut: ReadonlySet<number>): Contrast => {
    const { shared, units, telling, partner } = ties[j] as Tie;
    const isShared = (k: number) => (ties[k] as Tie).shared >= fewestShared;
    const joined = [...classes.keys()].filter((k) => k !== j && classes[k] === classes[j] && isShared(k));
    const plain = joined.filter((k) => !standOut.has(k));
    const against = plain.length > 0 ? plain : joined;
    const soFar =
      partner === null
        ? null
        : { ...partner, mean: (fit.offsets[j] as number) - (fit.offsets[partner.instrument] as number) };
    const common = { against, shared, units: units.slice(0, mostUnits), soFar };
    if (against.length === 0 || shared < fewestShared || telling < 2) return { ...common, estimate: null };
    const weightOf = (k: number) => (ties[k] as Tie).shared;
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

interface Tie extends Pick<Contrast, "shared" | "units"> {
  readonly partner: { readonly instrument: number; readonly engines: number } | null;
  /** Groups of engines that it shares with others. */
  readonly telling: number;
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
