/**
 * Mann–Kendall tests: the worked example by J. Little (College of the Holy Cross, "A Mann-Kendall Example (by hand)", one
 * tie; S, Z printed), and R's datasets LakeHuron, Nile and cars (ties in both variables do not occur in time series; the
 * first two are used), recomputed independently. Tolerance: to the digits that are given.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { mannKendall } from "@/lib/statistics/mann-kendall.ts";

const read = (file: string) => readFileSync(new URL(`./data/${file}`, import.meta.url), "utf8");

interface Numbers {
  S: number;
  var_S_tie_corrected: number;
  Z_continuity_corrected: number;
  p_two_sided: number;
}
const published = JSON.parse(read("g_trend_tests.json")) as {
  mann_kendall_by_hand: { values: number[]; published: { S: number; Z: number }; recomputed: Numbers };
  lakehuron: { mann_kendall: Numbers };
  nile: { mann_kendall: Numbers };
};

function expectNumbers(values: readonly number[], wanted: Numbers) {
  const found = mannKendall(values);
  expect(found.s).toBe(wanted.S);
  expect(found.variance).toBeCloseTo(wanted.var_S_tie_corrected, 5);
  expect(found.z).toBeCloseTo(wanted.Z_continuity_corrected, 8);
  expect(Math.abs(found.pValue / wanted.p_two_sided - 1)).toBeLessThan(1e-8);
}

test("fourteen values with one tie, by hand", () => {
  const { values, published: printed, recomputed } = published.mann_kendall_by_hand;
  expect(mannKendall(values).s).toBe(printed.S);
  expect(mannKendall(values).z).toBeCloseTo(printed.Z, 4);
  expectNumbers(values, recomputed);
});

test.each([
  ["lakehuron", "g_lakehuron.csv"],
  ["nile", "h_nile.csv"],
] as const)("%s", (name, file) => {
  const lines = read(file).trim().split("\n").slice(1);
  expectNumbers(
    lines.map((line) => Number(line.split(",")[1])),
    published[name].mann_kendall,
  );
});
