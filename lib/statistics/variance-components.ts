/** One reading of a part (what is measured) by an operator (who or what measures). */
export interface StudyReading {
  readonly part: string;
  readonly operator: string;
  readonly value: number;
}

export interface VarianceComponents {
  /** Variance of repeated readings of one part by one operator, and its degrees of freedom. */
  readonly repeatability: number;
  readonly freedom: number;
  /** Variance between operators, 0 at least; null: no part was read by two of them. */
  readonly reproducibility: number | null;
  readonly operatorFreedom: number;
}

/**
 * Repeatability and reproducibility by analysis of variance, parts and operators crossed and adding up (no interaction),
 * whatever the counts: operators' sum of squares after parts, its expectation by the fitting of constants (C. R. Henderson,
 * Biometrics 9 (1953), method 3). Work grows with the readings and, less so, with the operators' cube. Of a balanced study it gives the figures of the usual gauge study with the interaction
 * pooled. null: no part was read twice.
 */
export function varianceComponents(readings: readonly StudyReading[]): VarianceComponents | null {
  const parts = groupBy(readings, (r) => r.part);
  const operators = [...new Set(readings.map((r) => r.operator))].toSorted();
  const place = new Map(operators.map((name, i) => [name, i]));
  const n = operators.length;
  // Normal equations of the operators, the parts eliminated.
  const normal = Array.from({ length: n }, () => new Float64Array(n + 1));
  let within = 0;
  for (const of of parts.values()) {
    const mean = of.reduce((sum, r) => sum + r.value, 0) / of.length;
    // A part was read by few of the operators: only these enter.
    const counts = new Map<number, number>();
    for (const { operator, value } of of) {
      const i = place.get(operator) as number;
      counts.set(i, (counts.get(i) ?? 0) + 1);
      within += (value - mean) ** 2;
      add(normal, i, n, value - mean);
    }
    for (const [i, own] of counts) {
      for (const [j, other] of counts) add(normal, i, j, (i === j ? own : 0) - (own * other) / of.length);
    }
  }
  // What an operator's variance adds to their sum of squares: the trace of the equations.
  const trace = normal.reduce((sum, row, i) => sum + (row[i] as number), 0);
  const { squares, rank } = explained(normal);
  const freedom = readings.length - parts.size - rank;
  if (freedom <= 0) return null;
  const repeatability = Math.max(0, within - squares) / freedom;
  const reproducibility = rank === 0 ? null : Math.max(0, (squares - rank * repeatability) / trace);
  return { repeatability, freedom, reproducibility, operatorFreedom: rank };
}

function groupBy(readings: readonly StudyReading[], keyOf: (r: StudyReading) => string): Map<string, StudyReading[]> {
  const groups = new Map<string, StudyReading[]>();
  for (const reading of readings) {
    const group = groups.get(keyOf(reading));
    if (group === undefined) groups.set(keyOf(reading), [reading]);
    else group.push(reading);
  }
  return groups;
}

function add(matrix: readonly Float64Array[], i: number, j: number, by: number): void {
  const row = matrix[i] as Float64Array;
  row[j] = (row[j] as number) + by;
}

/** Sum of squares that the solution of semidefinite equations explains, and their rank. */
function explained(normal: readonly Float64Array[]): { readonly squares: number; readonly rank: number } {
  const n = normal.length;
  const least = 1e-9 * Math.max(1, ...normal.map((row, i) => row[i] as number));
  let squares = 0;
  let rank = 0;
  for (let k = 0; k < n; k++) {
    const pivot = normal[k] as Float64Array;
    const on = pivot[k] as number;
    if (on <= least) continue;
    rank += 1;
    squares += (pivot[n] as number) ** 2 / on;
    for (let i = k + 1; i < n; i++) {
      const row = normal[i] as Float64Array;
      const factor = (row[k] as number) / on;
      if (factor === 0) continue;
      for (let j = k; j <= n; j++) row[j] = (row[j] as number) - factor * (pivot[j] as number);
    }
  }
  return { squares, rank };
}
