import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { cylinderRows } from "../cylinder-rows.ts";

export type Tie = readonly [number, number];

const sameTie = (a: Tie, b: Tie): boolean => (a[0] === b[0] && a[1] === b[1]) || (a[0] === b[1] && a[1] === b[0]);

export const isTied = (ties: readonly Tie[], tie: Tie): boolean => ties.some((one) => sameTie(one, tie));

/** The ties with one more, or without it where it was there; in the order of their cylinders. */
export function toggledTie(ties: readonly Tie[], tie: Tie): readonly Tie[] {
  const others = ties.filter((one) => !sameTie(one, tie));
  const all = others.length === ties.length ? [...others, tie] : others;
  return all.map(([a, b]): Tie => (a < b ? [a, b] : [b, a])).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
}

/** Cylinders that stand beside each other in a row, and those tied otherwise: each pair that may be tied or untied. */
export function pairsToTie(
  layout: EngineModel["layout"],
  cylinders: number,
  ties: readonly Tie[],
): { readonly beside: readonly Tie[]; readonly others: readonly Tie[] } {
  const beside = cylinderRows(layout, cylinders).flatMap((row) =>
    row.slice(1).map((cylinder, place): Tie => [row[place] as number, cylinder]),
  );
  const others = ties.filter((tie) => tie.every((c) => c <= cylinders) && !isTied(beside, tie));
  return { beside, others };
}
