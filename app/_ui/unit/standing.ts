import type { EngineModel } from "@/lib/schema/engine-model.ts";
import { cylinderRows } from "../cylinder-rows.ts";

/** What tells how the cylinders of a model stand. */
type Standing = Pick<EngineModel, "cylinders" | "layout" | "neighbours">;

/**
 * Cylinders as they stand in the engine: one row in line, two rows for the banks of a V or the sides of an opposed
 * engine, front of the engine first. The gasket bridges tell the banks where they make two equal groups; otherwise a V
 * counts along one bank and then the other, and an opposed engine across.
 */
export function standingRows({ cylinders, layout, neighbours }: Standing): readonly (readonly number[])[] {
  const all = Array.from({ length: cylinders }, (_, i) => i + 1);
  if (layout === "in-line" || cylinders < 2) return [all];
  const groups = joinedGroups(all, neighbours);
  const [first, second] = groups;
  if (groups.length === 2 && first?.length === second?.length) return groups;
  return cylinderRows(layout, cylinders);
}

/** Whether two cylinders share a gasket bridge. */
export function areJoined(neighbours: Standing["neighbours"], a: number, b: number): boolean {
  return neighbours.some(([p, q]) => (p === a && q === b) || (p === b && q === a));
}

/** Points of the second bank, and of cylinders 9 to 16 whose colours repeat, are square. */
export function hasSquarePoints(model: Standing, cylinder: number): boolean {
  return cylinder > 8 || (standingRows(model)[1]?.includes(cylinder) ?? false);
}

/** Colour token of a cylinder: eight, then they repeat. */
export function cylinderColour(cylinder: number): string {
  return `var(--c${((cylinder - 1) % 8) + 1})`;
}

function joinedGroups(all: readonly number[], neighbours: Standing["neighbours"]): number[][] {
  const groups: number[][] = [];
  for (const n of all) {
    const touching = groups.filter((group) => group.some((m) => areJoined(neighbours, m, n)));
    const rest = groups.filter((group) => !touching.includes(group));
    groups.splice(0, groups.length, ...rest, [...touching.flat(), n]);
  }
  return groups.map((g) => g.sort((a, b) => a - b)).sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
}
