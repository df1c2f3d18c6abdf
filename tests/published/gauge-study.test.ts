import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { varianceComponents } from "@/lib/statistics/variance-components.ts";

/**
 * Ten parts, three operators, three trials: Measurement Systems Analysis, 4th ed. (Automotive Industry Action Group),
 * analysis of variance with the interaction pooled. m_grr.json holds the printed figures and the same recomputed.
 */
const folder = path.resolve(import.meta.dirname, "data");
const study = JSON.parse(readFileSync(path.join(folder, "m_grr.json"), "utf8"));
const readings = readFileSync(path.join(folder, "m_grr.csv"), "utf8")
  .trimEnd()
  .split("\n")
  .slice(1)
  .map((line) => {
    const [operator, part, , value] = line.split(",") as [string, string, string, string];
    return { operator, part, value: Number(value) };
  });

describe("gauge study by analysis of variance", () => {
  const found = varianceComponents(readings);
  const published = study.published_pooled;
  test("repeatability and reproducibility as printed", () => {
    expect(Math.sqrt(found?.repeatability ?? Number.NaN)).toBeCloseTo(published.EV, 6);
    expect(Math.sqrt(found?.reproducibility ?? Number.NaN)).toBeCloseTo(published.AV, 6);
  });
  test("variances and degrees of freedom as recomputed", () => {
    expect(found?.repeatability).toBeCloseTo(study.pooled_model.var.repeatability, 9);
    expect(found?.reproducibility).toBeCloseTo(study.pooled_model.var.operator, 9);
    expect(found?.freedom).toBe(study.anova.pooled_error.df);
    expect(found?.operatorFreedom).toBe(study.anova.operator.df);
  });
  test("a reading left out leaves nearly the same", () => {
    const without = varianceComponents(readings.toSpliced(40, 1));
    expect(without?.freedom).toBe(77);
    expect(without?.repeatability).toBeCloseTo(study.pooled_model.var.repeatability, 2);
    expect(without?.reproducibility).toBeCloseTo(study.pooled_model.var.operator, 2);
  });
});
