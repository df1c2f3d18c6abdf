import fc from "fast-check";
import { linearRegression } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { coefficientInterval, leastSquares } from "@/lib/statistics/linear-regression.ts";

describe("leastSquares", () => {
  test("gives nothing where the data do not fix the coefficients", () => {
    expect(leastSquares({ rows: [], response: [] })).toBeNull();
    expect(
      leastSquares({
        rows: [
          [1, 1],
          [1, 2],
        ],
        response: [1, 2],
      }),
    ).toBeNull();
    expect(
      leastSquares({
        rows: [
          [1, 3],
          [1, 3],
          [1, 3],
        ],
        response: [1, 2, 3],
      }),
    ).toBeNull();
    expect(leastSquares({ rows: [[0], [0], [0]], response: [1, 2, 3] })).toBeNull();
  });

  test("finds the line that an independent library finds", () => {
    const point = fc.tuple(fc.integer({ min: 0, max: 500 }), fc.double({ min: -100, max: 100, noNaN: true }));
    fc.assert(
      fc.property(fc.uniqueArray(point, { minLength: 3, maxLength: 30, selector: (p) => p[0] }), (points) => {
        const fit = leastSquares({ rows: points.map(([x]) => [1, x]), response: points.map(([, y]) => y) });
        const { m, b } = linearRegression(points);
        expect(fit?.coefficients[0]).toBeCloseTo(b, 6);
        expect(fit?.coefficients[1]).toBeCloseTo(m, 6);
      }),
    );
  });

  test("a weight of 2 does what writing the row twice does to the coefficients", () => {
    const rows = [
      [1, 0],
      [1, 1],
      [1, 3],
      [1, 7],
    ];
    const response = [1, 4, 3, 9];
    const weighted = leastSquares({ rows, response, weights: [1, 2, 1, 1] });
    const twice = leastSquares({ rows: [...rows, [1, 1]], response: [...response, 4] });
    for (const i of [0, 1]) expect(weighted?.coefficients[i]).toBeCloseTo(twice?.coefficients[i] as number, 12);
  });

  test("the mean of a constant design has the standard error that a textbook gives it", () => {
    const fit = leastSquares({ rows: [[1], [1], [1], [1]], response: [2, 4, 4, 6] });
    expect(fit?.coefficients[0]).toBeCloseTo(4, 12);
    expect(fit?.residualSd).toBeCloseTo(Math.sqrt(8 / 3), 12);
    expect(fit?.standardErrors[0]).toBeCloseTo(Math.sqrt(8 / 3) / 2, 12);
    const [low, high] = coefficientInterval(fit as NonNullable<typeof fit>, 0, 0.95);
    // t quantile 3.182 with 3 degrees of freedom, from printed tables.
    expect(high - 4).toBeCloseTo((3.182446 * Math.sqrt(8 / 3)) / 2, 5);
    expect(high - 4).toBeCloseTo(4 - low, 12);
  });
});
