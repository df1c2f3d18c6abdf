import { faultProbability } from "../condition/fault-probability.ts";
import { repeatability } from "../repeatability.ts";
import type { InstrumentHint, SharedStep } from "../schema/comparison.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import type { Link, NamedChain } from "./shared-steps.ts";

/** With fewer engines a gauge that reads off is mostly not found (lib/comparison/instrument-biases.ts): of 6 now and then, of 5 hardly ever. */
export const enoughEngines = 7;
/** One engine that steps has more likely a fault of its own. */
const fewestEngines = 2;
/** Of instruments so many read off, before any is looked at: as where many engines tell. Judgement. */
const offShare = 0.05;
/** Less is no leaning. */
const leastProbability = 0.15;
/** Tests of an engine on either side that its step is told from. */
const eachSide = 5;
/** So many times the pool's standard deviation of a rate. */
const widerRate = 3;
/** Dates that are tried, evenly from all with a test. */
const mostDates = 25;
/** Each engine must have stepped by so much of the mean. */
const leastShare = 0.4;

interface Look {
  readonly date: IsoDate;
  readonly mean: number;
  readonly engines: number;
  /** How much likelier the readings are with a step at the date than without. */
  readonly ratio: number;
}

/**
 * Instruments used on too few engines to be called off, of which the readings of all of these stepped together: a hint for a
 * person, nothing is doubted or corrected by it. Each date with a test is as likely a beginning as any other, one instrument in
 * twenty is off; for a date Bayes' rule over the mean step of the engines, each beside a rate of its own. That engines of a
 * fleet fail at about one time is not in it: so the probability is that of a step and no chance, and not of a fault of the
 * instrument.
 *
 * @param chains of all units
 * @param found steps that more engines told of already
 */
export function hintsOfFew(
  measure: JudgedMeasure,
  chains: readonly NamedChain[],
  found: readonly SharedStep[],
): InstrumentHint[] {
  const byName = new Map<string, NamedChain[]>();
  for (const chain of chains) {
    if (chain.of !== "instrument") continue;
    const own = byName.get(chain.name);
    if (own === undefined) byName.set(chain.name, [chain]);
    else own.push(chain);
  }
  return [...byName].flatMap(([instrument, own]) => {
    const isTold = found.some((step) => step.of === "instrument" && step.name === instrument);
    const engines = new Set(own.map(({ links }) => links[0]?.engine)).size;
    if (isTold || engines < fewestEngines || engines >= enoughEngines) return [];
    const hint = hintOf(measure, own);
    return hint === null ? [] : [{ instrument, ...hint }];
  });
}

function hintOf(measure: JudgedMeasure, chains: readonly NamedChain[]): Omit<InstrumentHint, "instrument"> | null {
  const dates = [...new Set(chains.flatMap(({ links }) => links.map(({ date }) => date)))].toSorted();
  const stride = Math.ceil(dates.length / mostDates);
  const tried = dates.filter((_, i) => i % stride === 0);
  const looks = tried.flatMap((date) => lookAt(measure, chains, date) ?? []);
  const [best] = looks.toSorted((a, b) => b.ratio - a.ratio);
  if (best === undefined) return null;
  const odds = looks.reduce((sum, { ratio }) => sum + (offShare / tried.length) * ratio, 0) / (1 - offShare);
  const probability = Math.round((1000 * odds) / (1 + odds)) / 1000;
  if (probability < leastProbability) return null;
  return { from: best.date, mean: best.mean, engines: best.engines, probability };
}

/** The step of the engines with tests on both sides of the date; null: of too few, not alike, or too small to matter. */
function lookAt(measure: JudgedMeasure, chains: readonly NamedChain[], date: IsoDate): Look | null {
  // Of two courses of one engine the later one that has both sides.
  const byEngine = new Map<string, Step>();
  for (const { links } of chains) {
    const before = links.filter((link) => link.date < date).slice(-eachSide);
    const after = links.filter((link) => link.date >= date).slice(0, eachSide);
    const [first] = after;
    if (before.length === 0 || first === undefined) continue;
    byEngine.set(first.engine, stepBetween(before, after));
  }
  const steps = [...byEngine.values()];
  if (steps.length < fewestEngines) return null;
  const mean = meanOf(steps, ({ by }) => by);
  const level = measure === "leak-down" ? 0 : 100;
  const alike = steps.every(({ by }) => by * Math.sign(mean) >= leastShare * Math.abs(mean));
  if (!alike || Math.abs(mean) < repeatability(measure, level).shared) return null;
  const sd = Math.sqrt(meanOf(steps, ({ variance }) => variance) / steps.length);
  const even = Math.min(1 - 1e-9, faultProbability({ measure, size: mean, sd, level }, 0.5));
  return { date, mean, engines: steps.length, ratio: even / (1 - even) };
}

interface Step {
  readonly by: number;
  readonly variance: number;
}

/**
 * The step of one engine by least squares of its level, its rate and a step between the two sides, weighted by the tests'
 * standard deviations. The rate has a normal prior about the pool's, and a wide one: the pool was fitted across the step.
 */
function stepBetween(before: readonly Link[], after: readonly Link[]): Step {
  const links = [...before, ...after];
  const { rate, rateSd } = links[0] as Link;
  const weight = links.map(({ sd }) => sd ** -2);
  const isAfter = links.map((_, i) => (i < before.length ? 0 : 1));
  const total = weight.reduce((sum, w) => sum + w, 0);
  const centred = (values: readonly number[]) => {
    const middle = values.reduce((sum, v, i) => sum + (weight[i] as number) * v, 0) / total;
    return values.map((v) => v - middle);
  };
  const [x, step, y] = [links.map((l) => l.x), isAfter, links.map((l) => l.value)].map(centred) as [
    number[],
    number[],
    number[],
  ];
  const product = (a: readonly number[], b: readonly number[]) =>
    a.reduce((sum, v, i) => sum + (weight[i] as number) * v * (b[i] as number), 0);
  const known = (widerRate * rateSd) ** -2;
  const [xx, xs, ss] = [product(x, x) + known, product(x, step), product(step, step)];
  const determinant = xx * ss - xs * xs;
  const by = (xx * product(step, y) - xs * (product(x, y) + known * rate)) / determinant;
  return { by, variance: xx / determinant };
}

const meanOf = <T>(some: readonly T[], value: (one: T) => number): number =>
  some.reduce((sum, one) => sum + value(one), 0) / some.length;
