/**
 * Quantiles. Normal and Student t: recomputed with 30 digits or more (the NIST/SEMATECH e-Handbook
 * 1.3.6.7.2 prints Student t to 3 decimals); tolerance 1e-10, as far as digits are given. Of samples: e-Handbook 7.2.6.2, twelve silicon wafers, 90th
 * percentile by type 7 printed as 95.1957; all types recomputed with two packages.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { normalCdf, normalQuantile } from "@/lib/statistics/normal.ts";
import { quantileSorted } from "@/lib/statistics/quantile.ts";
import { studentTQuantile } from "@/lib/statistics/student-t.ts";

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

test("type 7 of twelve wafers", () => {
  const { percentiles } = JSON.parse(read("f_nist_ehandbook.json")) as {
    percentiles: {
      values: number[];
      p90_printed: Record<string, number>;
      quantiles_by_method_hyndman_fan: { linear: Record<string, number> };
    };
  };
  const ascending = percentiles.values.toSorted((a, b) => a - b);
  near(quantileSorted(ascending, 0.9), percentiles.p90_printed["R7 linear (spreadsheet default)"] as number, 5.3e-7);
  const wanted = Object.entries(percentiles.quantiles_by_method_hyndman_fan.linear);
  expect(wanted).toHaveLength(5);
  for (const [p, value] of wanted) near(quantileSorted(ascending, Number(p)), value, 1e-12);
});
