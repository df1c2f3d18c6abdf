import { addDays } from "../calendar.ts";
import { repeatability } from "../repeatability.ts";
import type { SharedStep, TesterCourse, TesterTest } from "../schema/comparison.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { ewmaChart } from "../statistics/ewma.ts";
import { median } from "../statistics/quantile.ts";
import { studentTQuantile } from "../statistics/student-t.ts";
import { isSameList } from "./same-list.ts";
import { jumpOf } from "./step-jump.ts";

/** Weight of the newest engine's reading, and the limit in standard deviations: some five engines in a row tell. */
const lambda = 0.3;
const chartLimit = 4;
/** One faulty set-up must not tell by itself. */
const mostZ = 3;
const mostBefore = 5;
const fewestEngines = 4;
/** Of the engines, those that must have stepped to the same side. */
const agreeing = 0.8;
/** Tests of an engine on either side that its step is told from. */
const eachSide = 3;
/** One-sided, that the mean step differs from nought. */
const surely = 0.995;

export interface Link extends TesterTest {
  readonly engine: string;
  readonly unit: string;
  readonly rate: number;
  readonly rateSd: number;
  /** Points, or % on a logarithmic scale. */
  readonly value: number;
}

/** One engine's tests between two repairs on file that have an instrument or a depot in common, in order. */
export interface NamedChain {
  readonly of: SharedStep["of"];
  readonly name: string;
  readonly links: readonly Link[];
  readonly innovations: readonly Innovation[];
}

/** A test against those before it, in standard deviations. */
interface Innovation {
  readonly date: IsoDate;
  readonly z: number;
}

/** What shared steps are looked for in, of one unit; it hangs on that unit's courses alone. */
export function namedChains(measure: JudgedMeasure, courses: readonly TesterCourse[]): NamedChain[] {
  return chainsOf(measure, courses).flatMap((chain) =>
    (["instrument", "depot"] as const).flatMap((of) => {
      const names = new Set(chain.flatMap((link) => link[of] ?? []));
      return [...names].flatMap((name): NamedChain[] => {
        const links = chain.filter((link) => link[of] === name);
        return links.length > 1 ? [{ of, name, links, innovations: innovations(links) }] : [];
      });
    }),
  );
}

/** The steps of one instrument or depot, and the chains that they were found in. */
interface NamedSteps {
  readonly chains: readonly NamedChain[];
  readonly steps: readonly SharedStep[];
}

/** Steps that were found, with what they were found in. */
export interface StepsFound {
  readonly byName: ReadonlyMap<string, NamedSteps>;
  readonly steps: readonly SharedStep[];
}

/**
 * Steps that many engines take together with one instrument, or at one depot: a gauge that reads low on every unit since a
 * date, a depot that steps on one day with a new tester. Each test is held against the same engine's earlier tests of the
 * same instrument (depot), and in the order of their dates an EWMA of these differences, over all engines, tells when they
 * left nought together. The size is the mean over at least four engines of what each read after less before, wear taken
 * off; it must matter, agree in four of five engines, and differ from nought surely. Repairs on file break an engine's
 * course; a step that nobody explained does not, for that is what is looked for.
 *
 * @param chains of all units, ascending by unit
 * @param before what was found before: an instrument or depot whose chains are the same, by identity, is not looked at
 * again
 */
export function* sharedSteps(
  measure: JudgedMeasure,
  chains: readonly NamedChain[],
  before: StepsFound | null = null,
): Generator<void, StepsFound> {
  const grouped = new Map<string, NamedChain[]>();
  for (const chain of chains) {
    const key = `${chain.of} ${chain.name}`;
    const others = grouped.get(key);
    if (others === undefined) grouped.set(key, [chain]);
    else others.push(chain);
  }
  const byName = new Map<string, NamedSteps>();
  for (const [key, own] of grouped) {
    const known = before?.byName.get(key);
    byName.set(key, known !== undefined && isSameList(known.chains, own) ? known : yield* stepsIn(measure, own));
  }
  const named = (of: SharedStep["of"]) =>
    [...byName.values()]
      .filter(({ chains: [first] }) => first?.of === of)
      .toSorted((a, b) => ((a.chains[0] as NamedChain).name < (b.chains[0] as NamedChain).name ? -1 : 1))
      .flatMap(({ steps }) => steps);
  const ofInstruments = named("instrument");
  const ofDepots = named("depot").filter((step) => !ofInstruments.some((other) => isSame(step, other)));
  return { byName, steps: [...ofInstruments, ...ofDepots] };
}

const isSame = (a: SharedStep, b: SharedStep): boolean =>
  a.units.every((unit) => b.units.includes(unit)) && Math.sign(a.mean) === Math.sign(b.mean);

/** Each engine's tests between two repairs on file, in order. `courses`: of one measure, an engine's one after another. */
export function chainsOf(measure: JudgedMeasure, courses: readonly TesterCourse[]): Link[][] {
  const chains: Link[][] = [];
  let last: { engine: string; chain: Link[] } | null = null;
  for (const { unit, engine, rate, rateSd, usual, begunBy, tests } of courses) {
    const links = tests.map((test): Link => {
      const value = measure === "leak-down" ? usual + test.above : 100 * Math.log(usual * (1 + test.above / 100));
      return { ...test, unit, engine, rate, rateSd, value };
    });
    if (last !== null && last.engine === engine && begunBy === "step") last.chain.push(...links);
    else {
      last = { engine, chain: links };
      chains.push(links);
    }
  }
  return chains;
}

/** `chains`: of one instrument or depot, one at least. */
function* stepsIn(measure: JudgedMeasure, chains: readonly NamedChain[]): Generator<void, NamedSteps> {
  const { of, name } = chains[0] as NamedChain;
  const inOrder = (some: readonly Innovation[]) =>
    some.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  const steps: SharedStep[] = [];
  let rest = inOrder(chains.flatMap((chain) => chain.innovations));
  let dates = [...new Set(rest.map((e) => e.date))];
  for (;;) {
    yield;
    const chart = ewmaChart(
      rest.map((e) => e.z),
      { target: 0, sd: 1, lambda, limit: chartLimit },
    );
    const out = chart.findIndex(({ average, lower, upper }) => average < lower || average > upper);
    if (out < 0) break;
    const sign = Math.sign(chart[out]?.average ?? 0);
    const begun = rest[
      beginOf(
        rest.map((e) => sign * e.z),
        out,
      )
    ]?.date as string;
    const step = yield* sharpestStep({ measure, of, name }, chains, { begun, sign, dates });
    if (step === null) {
      // No step there: what comes later than all that was tried may hold one.
      const later = rest.findIndex((e) => e.date > addDays(begun, sharpenedDays));
      if (later < 0) break;
      rest = rest.slice(Math.max(out + 1, later));
      continue;
    }
    const { date } = step;
    steps.push(step);
    // What still stands out because of the same step is no other: later tests are held against those since.
    const since = chains.flatMap(({ links }) => innovations(links.filter((link) => link.date >= date)));
    rest = inOrder(since.filter((e) => e.date > addDays(date, settlingDays)));
    dates = dates.filter((one) => one > addDays(date, sharpenedDays));
  }
  return { chains, steps };
}

/** Where a step of two standard deviations most likely began, by the values up to the one that told it. */
function beginOf(z: readonly number[], out: number): number {
  let [begin, sum, most] = [out, 0, Number.NEGATIVE_INFINITY];
  for (let i = out; i >= 0; i--) {
    sum += (z[i] as number) - 1;
    if (sum <= most) continue;
    most = sum;
    begin = i;
  }
  return begin;
}

/** Within so many days most engines have been tested after the step. */
const settlingDays = 365;

/** Each test but the first against those before it, in standard deviations. */
function innovations(chain: readonly Link[]): Innovation[] {
  return chain.flatMap((link, i) => {
    const before = chain.slice(Math.max(0, i - mostBefore), i);
    if (before.length === 0) return [];
    const mean = (of: (b: Link) => number) => before.reduce((sum, b) => sum + of(b), 0) / before.length;
    const expected = mean((b) => b.value + link.rate * (link.x - b.x));
    const variance =
      link.sd ** 2 + mean((b) => b.sd ** 2) / before.length + (link.rateSd * (link.x - mean((b) => b.x))) ** 2;
    const z = (link.value - expected) / Math.sqrt(variance);
    return [{ date: link.date, z: Math.max(-mostZ, Math.min(mostZ, z)) }];
  });
}

/** So far from where the chart says that it began. */
const sharpenedDays = 190;
/** Dates that are tried for a step, evenly from all with a test. */
const mostDates = 25;

/**
 * The step about where the chart says that it began, at the date that readings jump most at: a chart of single tests may be
 * some tests late, and a jump is then hidden between the two sides. Wear jumps nowhere, whichever date is tried.
 */
function* sharpestStep(
  named: Pick<SharedStep, "measure" | "of" | "name">,
  chains: readonly NamedChain[],
  { begun, sign, dates }: { readonly begun: IsoDate; readonly sign: number; readonly dates: readonly IsoDate[] },
): Generator<void, SharedStep | null> {
  const links = chains.map((chain) => chain.links);
  const [from, to] = [addDays(begun, -sharpenedDays), addDays(begun, sharpenedDays)];
  const near = dates.filter((date) => date >= from && date <= to);
  const stride = Math.max(1, Math.ceil(near.length / mostDates));
  const least = 2 * repeatability(named.measure, named.measure === "leak-down" ? 0 : 100).shared;
  let best = stepAt({ ...named, date: begun }, links);
  const jumpOfStep = (step: SharedStep | null) => sign * (step?.jump?.mean ?? 0);
  for (const date of near.filter((_, i) => i % stride === 0)) {
    yield;
    const step = stepAt({ ...named, date }, links);
    if (Math.sign(step?.mean ?? 0) === sign && jumpOfStep(step) > Math.max(least, jumpOfStep(best))) best = step;
  }
  return best;
}

function stepAt(
  { measure, of, name, date }: Pick<SharedStep, "measure" | "of" | "name" | "date">,
  chains: readonly (readonly Link[])[],
): SharedStep | null {
  const mean = <T>(some: readonly T[], value: (one: T) => number) =>
    some.reduce((sum, one) => sum + value(one), 0) / some.length;
  const told = chains.flatMap((chain) => {
    const before = chain.filter((l) => l.date < date).slice(-eachSide);
    const after = chain.filter((l) => l.date >= date).slice(0, eachSide);
    const [first] = after;
    if (before.length === 0 || first === undefined) return [];
    const use = mean(after, (l) => l.x) - mean(before, (l) => l.x);
    const level = (some: readonly Link[]) => mean(some, (l) => l.value);
    const by = level(after) - level(before) - first.rate * use;
    const { engine, unit, rate, rateSd } = first;
    return [
      { engine, unit, rate, rateSd, by, rateError: rateSd * use, from: level(before), to: level(after), before, after },
    ];
  });
  // What two courses of an engine say hangs together.
  const steps = [...new Set(told.map((t) => t.engine))].map((engine) =>
    mean(
      told.filter((t) => t.engine === engine),
      (t) => t.by,
    ),
  );
  const n = steps.length;
  if (n < fewestEngines) return null;
  const size = mean(steps, (by) => by);
  const scatter = steps.reduce((sum, by) => sum + (by - size) ** 2, 0) / (n - 1);
  // Of a pool that knows the rate wrong, all its engines know it wrong alike: no number of them makes it smaller.
  const standardError = Math.hypot(
    Math.sqrt(scatter / n),
    mean(told, (t) => t.rateError),
  );
  const jump = jumpOf(told);
  const matters = repeatability(measure, measure === "leak-down" ? 0 : 100).shared;
  const alike = steps.filter((by) => Math.sign(by) === Math.sign(size)).length / n;
  const isSure = Math.abs(size) > studentTQuantile(surely, n - 1) * standardError;
  if (Math.abs(size) < 2 * matters || alike < agreeing || !isSure) return null;
  const reach = studentTQuantile(0.975, n - 1) * standardError;
  const asRead = (value: number) => (measure === "leak-down" ? value : Math.exp(value / 100));
  const usedBefore = new Set(told.flatMap((t) => t.before.map((l) => l.instrument)));
  const usedAfter = [...new Set(told.flatMap((t) => t.after.flatMap((l) => l.instrument ?? [])))];
  return {
    measure,
    of,
    name,
    date: told.flatMap((t) => t.after.map((l) => l.date)).toSorted()[0] as string,
    mean: size,
    low: size - reach,
    high: size + reach,
    standardError,
    jump,
    middle: median(steps),
    alike,
    from: asRead(median(told.map((t) => t.from))),
    to: asRead(median(told.map((t) => t.to))),
    engines: n,
    units: [...new Set(told.map((t) => t.unit))].toSorted(),
    boreNotNoted: measure === "leak-down" && told.every((t) => t.after.every((l) => l.orificeMm === null)),
    newInstruments: of === "depot" ? usedAfter.filter((one) => !usedBefore.has(one)).toSorted() : [],
  };
}
