import { type Course, type CourseFault, type CoursePrior, type Followed, followCourse } from "./course.ts";
import type { FaultRuling } from "./observations.ts";

/**
 * A fault that begins at some meter: its course bends or steps away from what went before. For each interval between
 * two readings and each kind of fault the whole course is followed anew with a jump and a growth of the fault's own; by
 * their likelihoods and what is held beforehand each becomes more or less credible (Bayesian change-point detection by
 * enumeration: a fault begins once at most within a life). Nothing is decided: what stays credible is carried on.
 */
export interface FaultKind {
  /** Jump at once and growth for each unit of its clock, as shares of the way from a new engine to the limit. */
  readonly jump: number;
  readonly jumpSd: number;
  readonly growth: number;
  readonly growthSd: number;
  /** Power of the fault's own clock. */
  readonly power: number;
}

/**
 * Growth is for each 500 hours' use (or the distance that goes with it). A burnt valve comes from the first hiss to the
 * limit in 50 to 400 h, accelerating; a gasket goes at once or within weeks and may then stand: common practice, no source.
 */
export const faultHours = 0.5;
export const faultKinds: readonly FaultKind[] = [
  { jump: 0, jumpSd: 0.06, growth: 0.9, growthSd: 0.6, power: 1.4 },
  { jump: 0.35, jumpSd: 0.25, growth: 0.05, growthSd: 0.15, power: 1 },
];

/** One account of a cylinder's course: no fault, or one that began before the reading `from`. */
export interface Account {
  readonly probability: number;
  readonly followed: Followed;
  readonly fault: {
    /** Index of the first reading that shows it. */
    readonly from: number;
    /** Wear meter at which it is taken to have begun. */
    readonly began: number;
    readonly kind: FaultKind;
  } | null;
}

/** A course whose surprises never added up to this much shows no fault, and none is looked for. */
const worthLooking = 1.5;
/**
 * Of each kind of account those below this share of belief are dropped, and those of the kind that are left share what
 * they had: when a fault began may be open although nobody doubts that there is one.
 */
const leastBelief = 0.04;
const mostAccounts = 4;
/** Beginnings that are tried at most; in longer courses they stand as many readings apart as that takes. */
const mostBeginnings = 40;
const apartIn = (readings: readonly unknown[]): number => Math.ceil(readings.length / mostBeginnings);

export const faultClockAt = (power: number, span: number, began: number, x: number): number =>
  x <= began ? 0 : faultHours * span * ((x - began) / (faultHours * span)) ** power;

/** What faults are looked for with. */
export interface FaultLook {
  /** Wear meter of each reading. */
  readonly x: readonly number[];
  /**
   * How much likelier what was heard at each reading is with a fault of the head than without one, as a logarithm; 0
   * where nothing was written down.
   */
  readonly heard: readonly number[];
  /** What a person said of each reading. */
  readonly ruled: readonly FaultRuling[];
  /** From a new engine to the limit, on the wear scale. */
  readonly way: number;
  /** Use that wears about as much as 1,000 h. */
  readonly span: number;
  /** Of cylinders in which a fault of each kind begins while they are watched. */
  readonly shares: readonly number[];
}

/** All accounts of one course, weighed but not yet settled: a neighbour's course may still add to them. */
export interface WeighedAccounts {
  readonly accounts: readonly {
    /** Of the readings, with what is held of the account beforehand. */
    readonly logWeight: number;
    /** Of the readings alone. */
    readonly logLikelihood: number;
    readonly followed: Followed;
    readonly fault: Account["fault"];
  }[];
  /** Of the readings, whichever account is true. */
  readonly logEvidence: number;
}

/** What is heard again at the same cylinder is hardly news: each further time counts so much of the one before. */
const heardAgain = 0.5;

/** Whether a course shows signs of a fault, or one was heard or confirmed. */
export const isWorthLooking = (
  { worstRise }: Followed,
  { heard, ruled }: Pick<FaultLook, "heard" | "ruled">,
): boolean => worstRise >= worthLooking || heard.some((h) => h > 0) || ruled.includes("fault");

/**
 * Between which readings a fault began, as persons ruled: none up to `after`, one by `by` (null: not said). Where two
 * rulings cannot both be true the one of the later test holds.
 */
function ruledBetween(
  ruled: readonly FaultRuling[],
  first: number,
): { readonly after: number; readonly by: number | null } {
  let after = first - 1;
  let by: number | null = null;
  for (let i = ruled.length - 1; i >= first; i--) {
    if (ruled[i] === "no-fault" && (by === null || i < by)) after = Math.max(after, i);
    if (ruled[i] === "fault" && i > after) by = i;
  }
  return { after, by };
}

/** Weighs every account of a course. */
export function weighAccounts(
  course: Course,
  prior: CoursePrior,
  { x, heard, ruled, way, span, shares }: FaultLook,
): WeighedAccounts {
  const sound = followCourse(course, prior, null);
  const n = course.clock.length;
  const share = shares.reduce((a, b) => a + b, 0);
  const soundWeight = Math.log(1 - share) + sound.logLikelihood;
  const whole = { logWeight: soundWeight, logLikelihood: sound.logLikelihood, followed: sound, fault: null };
  if (n === 0 || !isWorthLooking(sound, { heard, ruled })) {
    return { accounts: [whole], logEvidence: soundWeight };
  }
  const unit = way / (faultHours * span);
  // A fault ends with the baseline that it was part of: only the present one is looked through.
  // A leak that stood there at its first reading already is one that jumped before it, whatever it grew by.
  const first = Math.max(0, course.renewed.lastIndexOf(true));
  const { after, by } = ruledBetween(ruled, first);
  const accounts: WeighedAccounts["accounts"][number][] = by === null ? [whole] : [];
  const apart = apartIn(x.slice(first));
  // Counted from the last reading backwards: what has just begun matters most.
  const beginnings = [first];
  for (let from = first + 1 + ((n - first - 2) % apart); from < n; from += apart) beginnings.push(from);
  if (by !== null && !beginnings.some((from) => from > after && from <= by)) beginnings.push(by);
  for (const from of beginnings) {
    if (from <= after || (by !== null && from > by)) continue;
    const at = x[from] as number;
    const before = from === first ? at : (x[from - 1] as number);
    const began = before + 0.4 * (at - before);
    let logHeard = 0;
    for (let i = n - 1, counts = 1; i >= from; i--) {
      if (heard[i] === 0) continue;
      logHeard += counts * (heard[i] as number);
      counts *= heardAgain;
    }
    for (const [k, kind] of faultKinds.entries()) {
      if (from === first && kind.jump === 0) continue;
      const fault: CourseFault = {
        from,
        clock: x.map((meter) => faultClockAt(kind.power, span, began, meter)),
        jump: kind.jump * way,
        jumpSd: kind.jumpSd * way,
        growth: kind.growth * unit,
        growthSd: kind.growthSd * unit,
      };
      const followed = followCourse(course, prior, fault);
      const logLikelihood = followed.logLikelihood + logHeard;
      const logPrior = Math.log((shares[k] as number) / beginnings.length);
      accounts.push({ logWeight: logPrior + logLikelihood, logLikelihood, followed, fault: { from, began, kind } });
    }
  }
  return { accounts, logEvidence: logSum(accounts.map((a) => a.logWeight)) };
}

/** How often a gasket that goes lets air into the cylinder beside as well, at the same time. Judgement. */
const goesTogether = 0.7;

/**
 * The accounts that are still credible, likeliest first; probabilities add up to 1.
 * @param beside how much likelier the readings of a neighbour are if a fault that jumps began in it with the reading of
 *   this index too (1: as likely as not); null where there is no neighbour
 */
export function settleAccounts(
  weighed: WeighedAccounts,
  beside: ((from: number) => number) | null,
): readonly Account[] {
  const weighted = weighed.accounts.map(({ logWeight, followed, fault }) => {
    const jumps = fault !== null && fault.kind.jump > 0 && beside !== null;
    const more = jumps ? Math.log(1 - goesTogether + goesTogether * beside(fault.from)) : 0;
    return { logWeight: logWeight + more, followed, fault };
  });
  const total = logSum(weighted.map((a) => a.logWeight));
  const all = weighted.map(
    ({ logWeight, followed, fault }): Account => ({ probability: Math.exp(logWeight - total), followed, fault }),
  );
  const kinds = new Set(all.map(({ fault }) => fault?.kind));
  const credible = [...kinds]
    .flatMap((kind) => {
      const ofKind = all.filter(({ fault }) => fault?.kind === kind).toSorted(byBelief);
      const whole = believed(ofKind);
      if (whole < leastBelief) return [];
      const kept = ofKind.filter((a, i) => i === 0 || a.probability >= leastBelief);
      const share = whole / believed(kept);
      return kept.map((a) => ({ ...a, probability: a.probability * share }));
    })
    .toSorted(byBelief)
    .slice(0, mostAccounts);
  const kept = believed(credible);
  return credible.map((a) => ({ ...a, probability: a.probability / kept }));
}

const byBelief = (a: Account, b: Account): number => b.probability - a.probability;
const believed = (accounts: readonly Account[]): number => accounts.reduce((sum, a) => sum + a.probability, 0);

/** The logarithm of the sum of what the values are logarithms of. */
export function logSum(values: readonly number[]): number {
  const best = Math.max(...values);
  return best + Math.log(values.reduce((sum, v) => sum + Math.exp(v - best), 0));
}

/**
 * The accounts of all cylinders of an engine: each weighed on its own course, then settled beside its neighbours, for a
 * gasket that goes lets two cylinders leak at once.
 * @param tests for each cylinder, the test of each of its readings
 */
export function settleTogether(
  weighed: readonly WeighedAccounts[],
  tests: readonly (readonly number[])[],
  neighbours: readonly (readonly [number, number])[],
): readonly (readonly Account[])[] {
  return weighed.map((own, c) => {
    if (own.accounts.length === 1) return settleAccounts(own, null);
    const sides = neighbours.flatMap(([a, b]) => (a === c + 1 ? [b - 1] : b === c + 1 ? [a - 1] : []));
    if (sides.length === 0) return settleAccounts(own, null);
    return settleAccounts(own, (from) => {
      const test = tests[c]?.[from];
      const ratios = sides.map((side) => {
        const other = weighed[side];
        const same = other?.accounts.find(
          (a) =>
            a.fault !== null &&
            a.fault.kind.jump > 0 &&
            Math.abs((tests[side]?.[a.fault.from] as number) - (test as number)) < apartIn(tests[side] ?? []),
        );
        // A neighbour whose course shows nothing speaks against it.
        return other === undefined
          ? 1
          : same === undefined
            ? 0
            : Math.exp(Math.min(30, same.logLikelihood - other.logEvidence));
      });
      return Math.max(...ratios);
    });
  });
}
