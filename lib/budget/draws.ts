/** Draws of all units together: so many take some five seconds of processor. */
const drawsOfUnits = 1_600_000;
const [fewest, most] = [10_000, 40_000];

/**
 * How often a budget of so many units is drawn; even. So often that another seed moves the P50 and P80 of the current fiscal year and the
 * next by about 1 % at most, their P95 by 2 % (measured on the demo fleet of 40 units; docs/decisions/0025-budget.md). A fleet of more
 * units has a steadier sum, and each draw of it takes longer: the draws fall as units grow in number, and never below `fewest`.
 */
export function usualDraws(units: number): number {
  const draws = 2 * Math.round(drawsOfUnits / Math.max(1, units) / 2);
  return Math.min(most, Math.max(fewest, draws));
}
