/** A fleet of more units has a steadier sum: fewer draws tell it as exactly. */
const smallFleet = 200;

/**
 * How often a budget is drawn: so often that another seed moves the P50 and P80 of the current fiscal year and the next by about 1 % at
 * most, their P95 by 2 % (measured on the demo fleet; docs/decisions/0025-budget.md).
 */
export const usualDraws = (units: number): number => (units <= smallFleet ? 40_000 : 10_000);
