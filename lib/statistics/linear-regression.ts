import { studentTQuantile } from "./student-t.ts";

export interface LinearFit {
  readonly coefficients: readonly number[];
  readonly standardErrors: readonly number[];
  /** Of a response with weight 1. */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
}

export interface LinearData {
  /** One row of the design for each response, all of one length; a constant 1 in it gives an intercept. */
  readonly rows: readonly (readonly number[])[];
  readonly response: readonly number[];
  /** Inverse to the variance of each response, above 0; without them all count alike. */
  readonly weights?: readonly number[];
}

/**
 * Linear least squares by Householder's orthogonal triangulation of the design, never by normal equations, which lose
 * half of the digits. null: not more rows than coefficients, or columns that depend on each other. A single wrong response
 * may pull it anywhere; see theil-sen.ts for a line that resists. Source: Golub & Van Loan, Matrix Computations, ch. 5.
 */
export function leastSquares({ rows, response, weights }: LinearData): LinearFit | null {
  const n = rows.length;
  const p = rows[0]?.length ?? 0;
  if (p === 0 || n <= p) return null;
  const root = (i: number) => (weights === undefined ? 1 : Math.sqrt(weights[i] as number));
  const columns = Array.from({ length: p }, (_, j) =>
    Float64Array.from(rows, (row, i) => root(i) * (row[j] as number)),
  );
  const y = Float64Array.from(response, (value, i) => root(i) * value);
  const diagonal = new Float64Array(p);

  for (const [j, column] of columns.entries()) {
    const below = Math.hypot(...column.subarray(j));
    // What is left of a column after the earlier ones are taken out, against the whole of it.
    if (below <= 1e-14 * n * Math.hypot(...column)) return null;
    const alpha = (column[j] as number) > 0 ? -below : below;
    diagonal[j] = alpha;
    column[j] = (column[j] as number) - alpha;
    const scale = -alpha * (column[j] as number);
    for (const other of [...columns.slice(j + 1), y]) {
      let dot = 0;
      for (let i = j; i < n; i++) dot += (column[i] as number) * (other[i] as number);
      for (let i = j; i < n; i++) other[i] = (other[i] as number) - (dot / scale) * (column[i] as number);
    }
  }

  const solve = (right: ArrayLike<number>): Float64Array => {
    const solution = new Float64Array(p);
    for (let j = p - 1; j >= 0; j--) {
      let rest = right[j] as number;
      for (let k = j + 1; k < p; k++) rest -= (columns[k]?.[j] as number) * (solution[k] as number);
      solution[j] = rest / (diagonal[j] as number);
    }
    return solution;
  };
  const degreesOfFreedom = n - p;
  const residualSd = Math.hypot(...y.subarray(p)) / Math.sqrt(degreesOfFreedom);
  const squared = new Float64Array(p);
  for (let k = 0; k < p; k++) {
    const unit = new Float64Array(p);
    unit[k] = 1;
    for (const [j, r] of solve(unit).entries()) squared[j] = (squared[j] as number) + r * r;
  }
  return {
    coefficients: [...solve(y)],
    standardErrors: Array.from(squared, (s) => residualSd * Math.sqrt(s)),
    residualSd,
    degreesOfFreedom,
  };
}

/**
 * Interval that holds the coefficient with the given probability (0.95, say) if the responses scatter independently and
 * normally about the fit: Student's t with the fit's degrees of freedom.
 */
export function coefficientInterval(fit: LinearFit, index: number, probability: number): readonly [number, number] {
  const reach = studentTQuantile((1 + probability) / 2, fit.degreesOfFreedom) * (fit.standardErrors[index] as number);
  const middle = fit.coefficients[index] as number;
  return [middle - reach, middle + reach];
}
