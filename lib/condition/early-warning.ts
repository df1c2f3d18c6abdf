import { daysBetween } from "../calendar.ts";
import type { IsoDate } from "../schema/facts.ts";
import { type JudgedMeasure, leakPlaces, type Place } from "../schema/words.ts";
import { type Additions, cusumLimit, cusumStep } from "../statistics/cusum.ts";
import { studentTCdfEven, studentTQuantile } from "../statistics/student-t.ts";
import { dateWords, listWords, numberWords, percentWords } from "../wording.ts";
import type { FamilySpreads } from "./family.ts";
import { type OwnPart, type Watch, watchOwnParts } from "./own-part.ts";
import type { ConditionedEngine } from "./types.ts";

/** A cylinder that left its family for the worse: the contract's early warning. */
export interface EarlyWarning {
  /** The measure that showed it most. */
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
  /** The first test at which it left. */
  readonly date: IsoDate;
  readonly meter: number;
  readonly x: number;
  /** How far it lay then off what its family let expect, and lies since by the mean: points of leakage, or kPa. */
  readonly amount: number;
  readonly amountSince: number;
  /** Of one reading, in the same unit: repeatability, referral and the baseline together. */
  readonly sd: number;
  /** What it was expected to read then, in the unit of the measure. */
  readonly expected: number;
  /** The CUSUM at that test and its limit, in standard deviations. */
  readonly statistic: number;
  readonly limit: number;
  /** Where air was heard then that sound cylinders do not let out; empty: the readings alone. */
  readonly heardAt: readonly Place[];
  /** False warnings in 100 cylinder-years, as chosen. */
  readonly falseAlarms: number;
  /** "early warning: cylinder 3 left its family at the test of 12 Jun 2026, …" */
  readonly words: string;
}

/**
 * False warnings in 100 years of one cylinder: chosen so that a fleet of 40 units with four cylinders has two or three a
 * year to look at (judgement). A lower rate tells fewer faults in time (docs/decisions/0020-early-warning.md).
 */
export const falseAlarmsPerHundredYears = 1.5;

/** The step that is to be told soonest is twice this, in standard deviations of a leak-down reading. */
const allowance = 0.75;
/** The same fault moves compression so many of its own standard deviations, where leak-down moves one (trade: blunt). */
const bluntness = 0.5;
/** Errors are heavy-tailed: the limit is that of Student's t with so many degrees of freedom, scaled to the same standard deviation. */
const tailFreedom = 8;
/** A cylinder whose later reading lies nearer than this to its family, in standard deviations, has come back. */
const backWithin = 1;
/**
 * Share of faults that a cylinder has together with one given neighbour: a gasket between them; with all its neighbours at
 * most so much, or those of many would leave none to itself. Judgement.
 */
const withNeighbour = 0.15;
const withNeighboursAtMost = 0.45;
/** Chance that a given neighbour is at fault by itself at a test; judgement. */
const neighbourAlone = 0.02;
/** Hearing counts unless the reading is further below expectation, in standard deviations. */
const heardFrom = -0.5;
/** Share of faults of valves or gasket that are heard there; judgement. */
const heardOfFaults = 0.85;
const tailScale = Math.sqrt(tailFreedom / (tailFreedom - 2));
const tailNodes = Array.from({ length: 24 }, (_, i) => studentTQuantile((i + 0.5) / 24, tailFreedom) / tailScale);
const testsAYear = { usual: 2, fewest: 0.5, most: 24 };

/**
 * Cylinders that left their family: a one-sided CUSUM of each cylinder's own parts (lib/condition/own-part.ts) of both
 * measures, in standard deviations and in the order of the tests. Air heard at a valve or the gasket counts in the same
 * sum, by its likelihood ratio (the sum is one of log likelihood ratios, E. S. Page, Biometrika 41 (1954), in units of the
 * step looked for). The limit is that at which a sound cylinder that is tested as often as this engine gets the chosen
 * number of false warnings, by the run length of the chain (lib/statistics/cusum.ts), of heavy-tailed errors and of
 * hearing that errs. From the test at which it left on, the baseline is held. A later reading of the same measure within
 * one standard deviation, with no such air heard, takes the warning back.
 */
export function earlyWarnings(conditioned: ConditionedEngine, spreads: FamilySpreads): readonly EarlyWarning[] {
  const { history } = conditioned;
  const { falseHearing } = spreads["leak-down"];
  const perYear = (measure: JudgedMeasure) =>
    testsEachYear(history.tests.flatMap((test) => (test.measure === measure ? [test.date] : [])));
  const leakDowns = perYear("leak-down");
  const compressions = perYear("compression-dry");
  if (leakDowns + compressions === 0) return [];
  const weight = { "leak-down": 1, "compression-dry": leakDowns === 0 ? 1 : bluntness };
  const watches = Array.from({ length: history.model.cylinders }, (_, i) => {
    const neighbours = history.model.neighbours?.filter((pair) => pair.includes(i + 1)).length ?? 0;
    return cylinderWatch(limitFor({ leakDowns, compressions, falseHearing, neighbours }), weight, falseHearing);
  });
  watchOwnParts(conditioned, spreads, watches);
  return watches.flatMap((watch, i) => {
    const left = watch.left();
    return left === null ? [] : [warningOf(history.model.cylinders, i + 1, left)];
  });
}

interface Left {
  /** Of the measure that showed it most. */
  readonly at: OwnPart;
  readonly statistic: number;
  readonly limit: number;
  readonly heardAt: readonly Place[];
  /** Own parts of that measure from the test at which it left on. */
  readonly amounts: number[];
}

function cylinderWatch(
  limit: number,
  weight: Readonly<Record<JudgedMeasure, number>>,
  falseHearing: number,
): Watch & { readonly left: () => Left | null } {
  let sum = 0;
  /** What each measure added since the sum was 0, and its last part. */
  let added = new Map<JudgedMeasure, { readonly z: number; readonly part: OwnPart }>();
  let left: Left | null = null;
  const clear = () => {
    sum = 0;
    added = new Map();
    left = null;
  };
  return {
    renew: clear,
    see: (part) => {
      const heardAt = part.heardAt.filter((place) => leakPlaces.includes(place));
      const z = part.amount / part.sd;
      if (left !== null) {
        if (part.measure !== left.at.measure) {
          left = shownMore(left, part, heardAt);
          return false;
        }
        if (z >= backWithin || heardAt.length > 0) {
          left.amounts.push(part.amount);
          return false;
        }
        clear();
        return true;
      }
      // Air heard where clearly less was read than expected is no sign of a leak that grew.
      const bonus = heardAt.length > 0 && z > heardFrom ? heardBonus(falseHearing) : 0;
      const more = evidenceOf(part, weight[part.measure]) + bonus;
      sum = cusumStep(sum, more);
      if (sum === 0) added = new Map();
      else added.set(part.measure, { z: (added.get(part.measure)?.z ?? 0) + more, part });
      if (sum <= limit) return true;
      const [most] = [...added.values()].toSorted((a, b) => b.z - a.z);
      const at = most?.part ?? part;
      left = { at, statistic: sum, limit, heardAt, amounts: [at.amount] };
      return false;
    },
    left: () => left,
  };
}

/** Of the tests of one day the one that shows it most tells how far; what was heard that day counts whichever told first. */
function shownMore(left: Left, part: OwnPart, heardAt: readonly Place[]): Left {
  if (part.test.date !== left.at.test.date) return left;
  const heard = [...new Set([...left.heardAt, ...heardAt])];
  const isMore = part.amount / part.sd > left.at.amount / left.at.sd;
  return isMore ? { ...left, at: part, heardAt: heard, amounts: [part.amount] } : { ...left, heardAt: heard };
}

/**
 * What a reading adds to the sum: the logarithm of the likelihood ratio of a step of twice the allowance, in units of it,
 * where the step may be of the cylinder alone or of it and a neighbour; a neighbour may have stepped without it, too.
 */
function evidenceOf({ amount, sd, pairs }: OwnPart, weight: number): number {
  const ratio = ratioOf(weight);
  const ofPair = pairs.map(({ own, neighbour }) => ratio(own) * ratio(neighbour));
  const beside = pairs.map(({ neighbour }) => ratio(neighbour));
  return Math.log(stepAgainstNone(ratio(amount / sd), ofPair, beside)) / (2 * allowance);
}

/** Of a step of twice the allowance, against none, by a value in standard deviations. */
const ratioOf = (weight: number) => {
  const step = 2 * allowance * weight;
  return (z: number) => Math.exp(step * z - step ** 2 / 2);
};

/** The ratios of a step of the cylinder alone, with each neighbour, and of each neighbour alone, weighed together. */
function stepAgainstNone(alone: number, withEach: readonly number[], ofEach: readonly number[]): number {
  return steppedAgainstNone(alone, sumOf(withEach), sumOf(ofEach), withEach.length);
}

const sumOf = (values: readonly number[]): number => values.reduce((total, v) => total + v, 0);

/** The same by the sums of the ratios over so many neighbours. */
function steppedAgainstNone(alone: number, withAll: number, ofAll: number, neighbours: number): number {
  const withOne = Math.min(withNeighbour, withNeighboursAtMost / Math.max(1, neighbours));
  const stepped = (1 - neighbours * withOne) * alone + withOne * withAll;
  return stepped / (1 - neighbours * neighbourAlone + neighbourAlone * ofAll);
}

/**
 * What the neighbours' readings add to a sound cylinder's, at quantiles of their distribution: of their ratios only the sum
 * counts, whose distribution is built up neighbour by neighbour.
 */
function neighbourBonuses(neighbours: number, weight: number): readonly number[] {
  const ratios = tailNodes.map(ratioOf(weight));
  let sums: readonly number[] = [0];
  for (let n = 0; n < neighbours; n++) {
    const before = sums.length <= ratios.length ? sums : meansOfGroups(sums, ratios.length);
    sums = before.flatMap((sum) => ratios.map((r) => sum + r));
  }
  return sums.map((sum) => Math.log(steppedAgainstNone(1, sum, sum, neighbours)) / (2 * allowance));
}

/** Values in so many groups of one size, by size: the mean of each. */
function meansOfGroups(values: readonly number[], groups: number): readonly number[] {
  const sorted = values.toSorted((a, b) => a - b);
  const size = sorted.length / groups;
  return Array.from({ length: groups }, (_, i) => sumOf(sorted.slice(i * size, (i + 1) * size)) / size);
}

/** The logarithm of the likelihood ratio of hearing air there, in units of the step looked for. */
const heardBonus = (falseHearing: number): number => Math.log(heardOfFaults / falseHearing) / (2 * allowance);

/** Rounded to half a test, so that limits are few. */
function testsEachYear(dates: readonly IsoDate[]): number {
  const days = [...new Set(dates)].toSorted();
  const [first, last] = [days[0], days.at(-1)];
  if (first === undefined || last === undefined) return 0;
  if (days.length < 3) return testsAYear.usual;
  const perYear = (365 * (days.length - 1)) / Math.max(1, daysBetween(first, last));
  return Math.min(testsAYear.most, Math.max(testsAYear.fewest, Math.round(2 * perYear) / 2));
}

const limits = new Map<string, number>();

interface Watching {
  /** Tests in a year. */
  readonly leakDowns: number;
  readonly compressions: number;
  readonly falseHearing: number;
  /** Of the cylinder. */
  readonly neighbours: number;
}

/** The same arguments give the same limit; kept, because each takes a dozen linear systems. */
function limitFor({ leakDowns, compressions, falseHearing, neighbours }: Watching): number {
  const key = `${leakDowns} ${compressions} ${falseHearing} ${neighbours}`;
  const kept = limits.get(key);
  if (kept !== undefined) return kept;
  const ofMeasure = (weight: number): Additions => {
    const bonuses = neighbourBonuses(neighbours, weight);
    return (y) => {
      let sum = 0;
      for (const b of bonuses) sum += studentTCdfEven(((y - b) / weight + weight * allowance) * tailScale, tailFreedom);
      return sum / bonuses.length;
    };
  };
  const leakDown = ofMeasure(1);
  const compression = ofMeasure(leakDowns === 0 ? 1 : bluntness);
  const bonus = heardBonus(falseHearing);
  // What adds at most this is read so low that hearing adds nothing.
  const none = leakDown(heardFrom - allowance);
  const heard: Additions = (y) => Math.min(leakDown(y), none) + Math.max(0, leakDown(y - bonus) - none);
  const perYear = leakDowns + compressions;
  // The chain takes the two in turns at random, as often as they are made.
  const additions: Additions = (y) =>
    (leakDowns * ((1 - falseHearing) * leakDown(y) + falseHearing * heard(y)) + compressions * compression(y)) /
    perYear;
  const limit = cusumLimit(additions, (perYear * 100) / falseAlarmsPerHundredYears);
  limits.set(key, limit);
  return limit;
}

function warningOf(
  cylinders: number,
  cylinder: number,
  { at, statistic, limit, heardAt, amounts }: Left,
): EarlyWarning {
  const { measure, amount, sd, expected, test } = at;
  const size = (value: number) =>
    measure === "leak-down" ? numberWords(value, 1) : percentWords((100 * value) / expected);
  const far = `${size(amount)}${measure === "leak-down" ? " points above" : " below"} what it was expected to read`;
  const what = amount > 0 ? far : "at about what it was expected to read";
  const heard = heardAt.length === 0 ? "" : `, with air heard at ${listWords(heardAt)}`;
  const from = cylinders === 1 ? "left its own course" : "left its family";
  return {
    measure,
    cylinder,
    date: test.date,
    meter: test.meter,
    x: test.x,
    amount,
    amountSince: amounts.reduce((sum, one) => sum + one, 0) / amounts.length,
    sd,
    expected,
    statistic,
    limit,
    heardAt,
    falseAlarms: falseAlarmsPerHundredYears,
    words: `early warning: cylinder ${cylinder} ${from} at the test of ${dateWords(test.date)}, ${what} (usual scatter ${size(sd)})${heard}; chosen are ${numberWords(falseAlarmsPerHundredYears, 1)} false warnings in 100 cylinder-years`,
  };
}
