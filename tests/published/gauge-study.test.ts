import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, test } from "vitest";
import { seededRandom } from "@/demo-data/random.ts";
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

test("a fleet of many depots, each with instruments of its own: what they were made with is found", () => {
  const random = seededRandom(3);
  const [depots, each, occasions] = [300, 4, 40];
  const biases = Array.from({ length: depots * each }, () => random.normal(0, 2));
  const many = Array.from({ length: depots * occasions }, (_, o) => {
    const level = random.normal(10, 5);
    return [0, 1].map(() => {
      const operator = each * (o % depots) + random.whole(0, each - 1);
      const value = level + (biases[operator] as number) + random.normal(0, 1);
      return { part: `occasion ${o}`, operator: `LT-${operator}`, value };
    });
  }).flat();
  const found = varianceComponents(many);
  // Instruments of different depots are never compared: of each depot one less than it has.
  expect(found?.operatorFreedom).toBe(depots * (each - 1));
  expect(found?.freedom).toBe(depots * (occasions - each + 1));
  expect(Math.sqrt(found?.repeatability ?? 0)).toBeCloseTo(1, 1);
  expect(Math.sqrt(found?.reproducibility ?? 0)).toBeCloseTo(2, 0.5);
});
