/** Money that is expected though P80 holds none of it: a repair that comes in fewer than one of five draws, and is dear. */
export const isRare = ({ expected, p80 }: { readonly expected: number; readonly p80: number | null }): boolean =>
  expected > 0 && p80 === 0;

/** Beside such a P80. */
export const rareMark = "chance below 1 in 5";

/** Below a table that has such a mark. */
export const rareNote =
  "Where money is expected and P80 is 0, the chance that any is spent is below one in five: a repair that is rare, and dear where it comes.";
