/**
 * Theil–Sen lines: Sen's seven points (J. Am. Stat. Assoc. 63 (1968) 1379–1389; slope printed), and R's datasets cars
 * (Ezekiel 1930), LakeHuron (Brockwell & Davis 1991) and Nile, recomputed with an independent package. Intercept: median
 * of the residuals. Tolerance 1e-9 relative, to the digits that are given.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { theilSenLine } from "@/lib/statistics/theil-sen.ts";

const read = (file: string) => readFileSync(new URL(`./data/${file}`, import.meta.url), "utf8");

interface Published {
  sen_1968: { x: number[]; y: number[]; slope: number; intercept_median_of_residuals: number };
  [name: string]: unknown;
}
const published = JSON.parse(read("g_trend_tests.json")) as Published;

test("Sen 1968: slope 4, intercept 6", () => {
  const { x, y } = published.sen_1968;
  expect(theilSenLine(x, y)).toEqual({ slope: 4, intercept: 6 });
});

test.each([
  ["cars_dist_on_speed", "g_cars.csv"],
  ["lakehuron", "g_lakehuron.csv"],
  ["nile", "h_nile.csv"],
])("%s", (name, file) => {
  const rows = read(file).trim().split("\n").slice(1);
  const points = rows.map((line) => line.split(",").map(Number) as [number, number]);
  const line = theilSenLine(
    points.map(([x]) => x),
    points.map(([, y]) => y),
  );
  const wanted = (published[name] as { theil_sen: { slope: number; intercept_median_of_residuals: number } }).theil_sen;
  expect(line?.slope).toBeCloseTo(wanted.slope, 9);
  expect(line?.intercept).toBeCloseTo(wanted.intercept_median_of_residuals, 6);
});
