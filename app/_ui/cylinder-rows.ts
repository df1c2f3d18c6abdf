import type { FleetRow } from "../../lib/schema/report.ts";

type Layout = FleetRow["layout"];

/**
 * Cylinder numbers as they stand in the engine, front first: one row in line; the two banks of a V, the lower numbers
 * first; the two sides of an opposed engine, odd numbers opposite even ones.
 */
export function cylinderRows(layout: Layout, cylinders: number): readonly (readonly number[])[] {
  const all = Array.from({ length: cylinders }, (_, index) => index + 1);
  if (cylinders < 2 || layout === "in-line") return [all];
  if (layout === "opposed") return [all.filter((n) => n % 2 === 1), all.filter((n) => n % 2 === 0)];
  const bank = Math.ceil(cylinders / 2);
  return [all.slice(0, bank), all.slice(bank)];
}
