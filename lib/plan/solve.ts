import type { Highs, ModelData } from "highs";
import { partsOf } from "./parts.ts";
import { costOf, isWithin, type Programme } from "./programme.ts";

export interface SolveOptions {
  /** Stops once the cost is proven to lie within this share of the least. */
  readonly gap: number;
  /** Stops after so long with the best that was found. */
  readonly seconds: number;
  /** Options that cover all needs within the capacities: what is found is never dearer. */
  readonly start: ReadonlySet<number>;
  /** Told now and then; `false` stops with the best that was found. */
  readonly onProgress: (progress: SolveProgress) => boolean;
}

export interface SolveProgress {
  readonly seconds: number;
  /** Cost of the best that was found, and the bound that no choice lies below; null: none yet. */
  readonly cost: number | null;
  readonly bound: number | null;
}

export interface Solved {
  readonly taken: ReadonlySet<number>;
  readonly cost: number;
  /** No choice costs less. */
  readonly bound: number;
  /** Stopped by the caller or the clock before the gap was reached. */
  readonly isCut: boolean;
}

/**
 * Solves a programme with HiGHS (branch and cut; Huangfu and Hall 2018), each part that shares nothing with the others by itself.
 * Blocks its thread: call it in a worker. What a part's solver can't bear (it has 2 GB at most) keeps its start.
 *
 * @param seconds now, by any clock that does not go back
 */
export function solveProgramme(
  highs: Highs,
  programme: Programme,
  options: SolveOptions,
  seconds: () => number,
): Solved {
  if (!isWithin(programme, options.start)) throw new Error("the start does not keep to the programme");
  const begun = seconds();
  const parts = partsOf(programme).map((part) => {
    const start = new Set(part.options.flatMap((option, place) => (options.start.has(option) ? [place] : [])));
    return { ...part, start, cost: costOf(part.programme, start), bound: boundAtOnce(part.programme), isCut: false };
  });
  // The largest first: what they leave of the time the small ones hardly need.
  const order = [...parts.keys()].toSorted((a, b) => (parts[b]?.options.length ?? 0) - (parts[a]?.options.length ?? 0));
  const taken = new Set<number>();
  let goesOn = true;
  for (const [i, p] of order.entries()) {
    const part = parts[p] as (typeof parts)[number];
    let found: ReadonlySet<number> = part.start;
    const left = options.seconds - (seconds() - begun);
    if (goesOn && left > 0) {
      const solved = solvePart(highs, part, {
        gap: options.gap,
        // Half of what is left for the largest ones keeps time for the others.
        seconds: i === order.length - 1 ? left : left / 2,
        isStopped: (cost, bound) => {
          const told = parts.map((one) => (one === part ? { cost: cost ?? one.cost, bound: bound ?? one.bound } : one));
          goesOn = options.onProgress({
            seconds: seconds() - begun,
            cost: told.reduce((sum, one) => sum + one.cost, 0),
            bound: told.reduce((sum, one) => sum + one.bound, 0),
          });
          return !goesOn;
        },
      });
      found = solved.taken;
      Object.assign(part, { cost: solved.cost, bound: solved.bound, isCut: solved.isCut });
    } else part.isCut = true;
    for (const place of found) taken.add(part.options[place] as number);
  }
  return {
    taken,
    cost: costOf(programme, taken),
    bound: parts.reduce((sum, { bound }) => sum + bound, 0),
    isCut: parts.some(({ isCut }) => isCut),
  };
}

/** What no choice lies below, whatever there is room for: each need by its cheapest option, or its share of one. */
function boundAtOnce({ needs, options }: Programme): number {
  const least = new Float64Array(needs).fill(Number.POSITIVE_INFINITY);
  for (const { cost, covers } of options) {
    for (const need of covers) least[need] = Math.min(least[need] as number, cost / covers.length);
  }
  return least.reduce((a, b) => a + b, 0);
}

interface PartOptions {
  readonly gap: number;
  readonly seconds: number;
  readonly isStopped: (cost: number | null, bound: number | null) => boolean;
}

interface PartToSolve {
  readonly programme: Programme;
  readonly start: ReadonlySet<number>;
  readonly cost: number;
  readonly bound: number;
}

/** Costs are scaled by the start's, so that the solver's tolerances fit whatever the size of the currency. */
function solvePart(
  highs: Highs,
  { programme, start, cost: startCost, bound: known }: PartToSolve,
  asked: PartOptions,
): Solved {
  const asStarted: Solved = { taken: start, cost: startCost, bound: known, isCut: true };
  const scale = 1000 / Math.max(1, Math.abs(startCost));
  const told = (amount: number | undefined) =>
    amount === undefined || Math.abs(amount) >= 1e30 ? null : amount / scale;
  const model = highs.createModel(modelData(highs, programme, scale));
  let isDead = false;
  try {
    model.options.set({ output_flag: false, mip_rel_gap: asked.gap, time_limit: asked.seconds, random_seed: 0 });
    const value = new Float64Array(programme.options.length);
    for (const option of start) value[option] = 1;
    model.setSolution({ colValue: value });
    const { modelStatus } = model.run({
      [highs.constants.callbackType.mipInterrupt](event) {
        if (asked.isStopped(told(event.data.mip_primal_bound), told(event.data.mip_dual_bound))) event.interrupt();
      },
    });
    const { colValue } = model.getSolution();
    const taken = new Set<number>();
    for (const [j, of] of colValue.entries()) if (of > 0.5) taken.add(j);
    const cost = costOf(programme, taken);
    const isBetter = isWithin(programme, taken) && cost <= startCost;
    const bound = Math.max(known, told(Number(model.info.get("mip_dual_bound"))) ?? known);
    return {
      taken: isBetter ? taken : start,
      cost: isBetter ? cost : startCost,
      bound: Math.min(bound, isBetter ? cost : startCost),
      isCut: modelStatus !== highs.constants.modelStatus.optimal,
    };
  } catch (error) {
    // The solver ran out of its memory: it can't be used any more, not even to be put away.
    if (!(error instanceof WebAssembly.RuntimeError)) throw error;
    isDead = true;
    return asStarted;
  } finally {
    if (!isDead) model.dispose();
  }
}

/** One column for each option, 0 or 1; a row for each need, which is covered once, and one for each capacity. */
function modelData({ infinity, constants }: Highs, { needs, options, capacity }: Programme, scale: number): ModelData {
  const count = options.length;
  const starts = new Int32Array(count + 1);
  const indices: number[] = [];
  const values: number[] = [];
  for (const [j, { covers, uses }] of options.entries()) {
    for (const need of covers) {
      indices.push(need);
      values.push(1);
    }
    for (const { row, amount } of uses) {
      indices.push(needs + row);
      values.push(amount);
    }
    starts[j + 1] = indices.length;
  }
  const rows = needs + capacity.length;
  return {
    numCols: count,
    numRows: rows,
    colCost: Float64Array.from(options, ({ cost }) => cost * scale),
    colLower: new Float64Array(count),
    colUpper: new Float64Array(count).fill(1),
    rowLower: Float64Array.from({ length: rows }, (_, i) => (i < needs ? 1 : -infinity)),
    rowUpper: Float64Array.from({ length: rows }, (_, i) => (i < needs ? 1 : (capacity[i - needs] as number))),
    matrix: {
      format: "csc",
      numCols: count,
      numRows: rows,
      starts,
      indices: Int32Array.from(indices),
      values: Float64Array.from(values),
    },
    integrality: new Int32Array(count).fill(constants.variableType.integer),
  };
}
