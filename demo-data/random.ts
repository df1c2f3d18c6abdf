/** Seeded random numbers for invented data: the same seed gives the same numbers on every machine. */
export interface Random {
  /** Uniform on [0, 1). */
  uniform(): number;
  /** Uniform on [low, high). */
  between(low: number, high: number): number;
  /** Whole number from low to high, both included. */
  whole(low: number, high: number): number;
  normal(mean: number, sd: number): number;
}

/** Small Fast Counter generator (C. Doty-Humphrey, 32 bit, public domain algorithm) started from one number. */
export function seededRandom(seed: number): Random {
  let a = 0x9e3779b9;
  let b = 0x243f6a88;
  let c = seed >>> 0;
  let counter = 1;
  const next = (): number => {
    const t = (a + b + counter++) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + t;
    return (t >>> 0) / 4_294_967_296;
  };
  for (let i = 0; i < 20; i++) next();
  const random: Random = {
    uniform: next,
    between: (low, high) => low + (high - low) * next(),
    whole: (low, high) => low + Math.floor((high - low + 1) * next()),
    // Box and Muller 1958; the logarithm's argument is never 0.
    normal: (mean, sd) => mean + sd * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  };
  return random;
}
