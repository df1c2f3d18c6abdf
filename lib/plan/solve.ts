import type { Highs } from "highs";
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
 * Solves a programme with HiGHS (branch and cut; Huangfu and Hall 2018). Blocks its thread: call it in a worker.
 *
 * Costs are measured from the start's, in its unit of a thousandth, so that the solver's tolerances fit whatever the
 * currency's size.
 */
export function solveProgramme(highs: Highs, programme: Programme, options: SolveOptions): Solved {
  const { needs, capacity } = programme;
  const startCost = costOf(programme, options.start);
  if (!isWithin(programme, options.start)) throw new Error("the start does not keep to the programme");
  if (programme.options.length === 0) return { taken: new Set(), cost: 0, bound: 0, isCut: false };

  const count = programme.options.length;
  const scale = 1000 / Math.max(1, Math.abs(startCost));
  const { infinity, constants } = highs;
  const starts = new Int32Array(count + 1);
  const indices: number[] = [];
  const values: number[] = [];
  for (const [j, { covers, uses }] of programme.options.entries()) {
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
  const value = new Float64Array(count);
  for (const option of options.start) value[option] = 1;
  return highs.withModel(
    {
      numCols: count,
      numRows: rows,
      colCost: Float64Array.from(programme.options, ({ cost }) => cost * scale),
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
    },
    (model) => {
      model.options.set({ output_flag: false, mip_rel_gap: options.gap, time_limit: options.seconds, random_seed: 0 });
      model.setSolution({ colValue: value });
      const told = (amount: number | undefined) =>
        amount === undefined || Math.abs(amount) >= 1e30 ? null : amount / scale;
      const { modelStatus } = model.run({
        [constants.callbackType.mipInterrupt](event) {
          const goesOn = options.onProgress({
            seconds: event.data.running_time ?? 0,
            cost: told(event.data.mip_primal_bound),
            bound: told(event.data.mip_dual_bound),
          });
          if (!goesOn) event.interrupt();
        },
      });
      const bound = told(Number(model.info.get("mip_dual_bound"))) ?? Number.NEGATIVE_INFINITY;
      const { colValue } = model.getSolution();
      const taken = new Set<number>();
      for (let j = 0; j < count; j++) if ((colValue[j] as number) > 0.5) taken.add(j);
      const cost = costOf(programme, taken);
      const isBetter = isWithin(programme, taken) && cost <= startCost;
      return {
        taken: isBetter ? taken : options.start,
        cost: isBetter ? cost : startCost,
        bound: Math.min(bound, isBetter ? cost : startCost),
        isCut: modelStatus !== constants.modelStatus.optimal,
      };
    },
  );
}
