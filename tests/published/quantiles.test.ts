/**
 * Quantiles. Normal and Student t: recomputed with 30 digits or more (the NIST/SEMATECH e-Handbook
 * 1.3.6.7.2 prints Student t to 3 decimals); tolerance 1e-10, as far as digits are given. The median of a sample:
 * e-Handbook 7.2.6.2, twelve silicon wafers, recomputed with two packages; the handbook prints 95.1972 for the 90 %
 * quantile by definition 8 (R8, median unbiased), which is ours. Both sides of Student t: from the same quantiles.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { normalCdf, normalQuantile } from "@/lib/statistics/normal.ts";
import { median, quantileSorted } from "@/lib/statistics/quantile.ts";
import { studentTQuantile, studentTTwoSided } from "@/lib/statistics/student-t.ts";

const read = (file: string) => readFileSync(new URL(`./data/${file}`, import.meta.url), "utf8");

const distributions = JSON.parse(read("j_quantiles.json")) as {
  normal: Record<string, number>;
  student_t: Record<string, Record<string, number>>;
};

const near = (found: number, wanted: number, tolerance: number) =>
  expect(Math.abs(found - wanted)).toBeLessThan(tolerance * Math.max(1, Math.abs(wanted)));

test.each(Object.entries(distributions.normal))("normal, p = %s", (p, z) => {
  near(normalQuantile(Number(p)), z, 1e-12);
  near(normalCdf(z), Number(p), 1e-12);
});

describe.each(Object.entries(distributions.student_t))("Student t, %s", (name, quantiles) => {
  test.each(Object.entries(quantiles))("p = %s", (p, t) => {
    near(studentTQuantile(Number(p), Number(name.slice(3))), t, 1e-10);
  });
});

test.each(Object.entries(distributions.student_t))(
  "Student t beyond its quantiles on both sides, %s",
  (name, quantiles) => {
    for (const [p, t] of Object.entries(quantiles)) {
      const wanted = 2 * Math.min(Number(p), 1 - Number(p));
      if (wanted > 0) expect(Math.abs(studentTTwoSided(t, Number(name.slice(3))) / wanted - 1)).toBeLessThan(1e-7);
    }
  },
);

test("quantiles of twelve wafers by definition 8", () => {
  const { percentiles } = JSON.parse(read("f_nist_ehandbook.json")) as {
    percentiles: {
      values: number[];
      p90_printed: Record<string, number>;
      quantiles_by_method_hyndman_fan: { median_unbiased: Record<string, number> };
    };
  };
  const sorted = percentiles.values.toSorted((a, b) => a - b);
  for (const [p, wanted] of Object.entries(percentiles.quantiles_by_method_hyndman_fan.median_unbiased)) {
    near(quantileSorted(sorted, Number(p)), wanted, 1e-10);
  }
  expect(quantileSorted(sorted, 0.9).toFixed(4)).toBe(String(percentiles.p90_printed["R8 median_unbiased"]));
});

test("median of twelve wafers", () => {
  const { percentiles } = JSON.parse(read("f_nist_ehandbook.json")) as {
    percentiles: { values: number[]; quantiles_by_method_hyndman_fan: { linear: { "0.5": number } } };
  };
  near(median(percentiles.values), percentiles.quantiles_by_method_hyndman_fan.linear["0.5"], 1e-12);
});
