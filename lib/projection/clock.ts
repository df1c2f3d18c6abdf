/**
 * The clock that a course is straight on: use since something began, raised to a power. A power above 1 is wear that
 * accelerates, below 1 wear that slows (time-scale transformation: Meeker and Escobar 1998, Whitmore and Schenkelberg
 * 1997). `unit` is the use at which all powers tick alike, so that rates on different clocks can be compared.
 */
export interface WearClock {
  readonly from: number;
  readonly power: number;
  readonly unit: number;
}

/** What the clock shows at wear meter `x`; 0 before it began. */
export function clockAt({ from, power, unit }: WearClock, x: number): number {
  const use = x - from;
  if (use <= 0) return 0;
  return power === 1 ? use : unit * (use / unit) ** power;
}

/** How fast the clock goes for each unit of the meter at wear meter `x`. */
export function clockSpeed({ from, power, unit }: WearClock, x: number): number {
  const use = Math.max(x - from, 1e-6 * unit);
  return power === 1 ? 1 : power * (use / unit) ** (power - 1);
}
