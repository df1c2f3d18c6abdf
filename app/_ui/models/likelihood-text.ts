/** Likelihoods are kept as shares and typed in per cent. Binary fractions are off in digits beyond these. */
const digits = 12;

/** "7" of 0.07; blank of none. */
export const percentText = (likelihood: number | undefined): string =>
  likelihood === undefined ? "" : String(Number((100 * likelihood).toPrecision(digits)));

/** 0.07 of 7, the same that `percentText` printed. */
export const ofPercent = (percent: number): number => Number((percent / 100).toPrecision(digits));
