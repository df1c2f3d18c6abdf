import { rounded } from "../assessment/rounding.ts";
import { fewestOutcomes, type LevelCase, type RangeCalibration } from "../schema/track-record.ts";
import { normalQuantile } from "../statistics/normal.ts";
import { outcomesOf } from "./level-scores.ts";

const nominal = 0.8;
const normalEnd = normalQuantile((1 + nominal) / 2);
/** So many outcomes weigh as much as the belief that ranges are right as they are (judgement). */
const believedOutcomes = 20;
/** Beyond these something other than the width is wrong (judgement). */
const [least, most] = [0.5, 2];

export type Judged = Pick<LevelCase, "engineModel" | "measure" | "meterUnit" | "engine" | "came" | "z" | "cylinder">;

/**
 * The factor by which ranges of a model and measure are to be multiplied so that the 80 % range would have held 80 % of
 * its own past: split-conformal quantile of the standardised errors (Papadopoulos and others 2002; Lei and others, J. Am.
 * Stat. Assoc. 113, 2018) over that of a normal variable, drawn towards 1 on a logarithmic scale by n / (n + 20) of n
 * outcomes. A test counts as one outcome. Under 20 the factor is 1.
 */
export function calibrationOf(cases: readonly Judged[]): RangeCalibration[] {
  const kinds = new Map<string, Judged[]>();
  for (const one of cases) {
    const key = JSON.stringify([one.engineModel, one.measure, one.meterUnit]);
    const kind = kinds.get(key);
    if (kind === undefined) kinds.set(key, [one]);
    else kind.push(one);
  }
  return [...kinds]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([, some]) => {
      const { engineModel, measure, meterUnit } = some[0] as Judged;
      const outcomes = outcomesOf(some);
      const isEnough = outcomes >= fewestOutcomes;
      return {
        engineModel,
        measure,
        meterUnit,
        outcomes,
        readings: some.length,
        raw: isEnough ? rounded(rawFactor(some), 4) : null,
        factor: isEnough ? factorOf(some) : 1,
        before: isEnough ? rounded(shareWithin(some, 1), 4) : null,
        after: isEnough ? rounded(heldByOthers(some), 4) : null,
      };
    });
}

/** Of n errors the ceil((n + 1) · 0.8)-th smallest, which holds the next one with at least that probability. */
function rawFactor(some: readonly Judged[]): number {
  const sizes = some.map(({ z }) => Math.abs(z)).toSorted((a, b) => a - b);
  const rank = Math.min(sizes.length, Math.ceil((sizes.length + 1) * nominal));
  return (sizes[rank - 1] ?? normalEnd) / normalEnd;
}

function factorOf(some: readonly Judged[]): number {
  const outcomes = outcomesOf(some);
  if (outcomes === 0) return 1;
  const log = Math.log(Math.min(most, Math.max(least, rawFactor(some))));
  return rounded(Math.exp((log * outcomes) / (outcomes + believedOutcomes)), 4);
}

const shareWithin = (some: readonly Judged[], factor: number): number =>
  some.filter(({ z }) => Math.abs(z) <= factor * normalEnd).length / some.length;

/** Share held where the factor of each half of the engines is learnt on the other half. */
function heldByOthers(some: readonly Judged[]): number {
  const engines = [...new Set(some.map((one) => one.engine))].toSorted();
  const isEven = new Map(engines.map((engine, i) => [engine, i % 2 === 0]));
  const even = some.filter((one) => isEven.get(one.engine));
  const odd = some.filter((one) => !isEven.get(one.engine));
  const held = (of: readonly Judged[], learntOn: readonly Judged[]) =>
    of.length === 0 ? 0 : of.length * shareWithin(of, factorOf(learntOn));
  return (held(even, odd) + held(odd, even)) / some.length;
}
