/**
 * The local-level model on the annual flow of the Nile at Aswan, 1871 to 1970, with the variances printed by Durbin and
 * Koopman (Time Series Analysis by State Space Methods, 2012, chapter 2: 15099 and 1469.1): filtered levels and their
 * variances, and the log-likelihood (−632.5456, printed; the columns recomputed by two independent programs, 1e-8). The
 * filter here begins with a wide prior where theirs is exactly diffuse, so the first years agree less closely.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { followCourse } from "@/lib/projection/course.ts";

const rows = readFileSync(new URL("./data/h_nile_filter.csv", import.meta.url), "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(",").map(Number));
const prior = {
  level: 1120,
  levelSd: 1e7,
  rate: 0,
  rateSd: 0,
  wander: 1469.1,
  renewalSd: 0,
  renewsRate: false,
  tails: "normal",
} as const;

const follow = (years: number) =>
  followCourse(
    {
      clock: rows.slice(0, years).map((row) => row[0] as number),
      level: rows.slice(0, years).map((row) => row[1] as number),
      variance: Array(years).fill(15_099),
      renewed: Array(years).fill(false),
    },
    prior,
    null,
  );

test.each([2, 3, 10, 50, 100])("after %i years: level and variance", (years) => {
  const { mean, covariance } = follow(years);
  const row = rows[years - 1] as number[];
  expect(mean[0]).toBeCloseTo(row[7] as number, 3);
  expect((covariance[0] as number) / (row[8] as number)).toBeCloseTo(1, 6);
});

test("the likelihood of what follows the first year", () => {
  const { logLikelihood } = follow(100);
  const first = follow(1).logLikelihood;
  expect(logLikelihood - first - (99 / 2) * Math.log(2 * Math.PI)).toBeCloseTo(-632.5456, 3);
});

test("with the years 21 to 40 and 61 to 80 missing (section 2.7 there), left out and the wandering over the gap", () => {
  const known = rows.filter((_, i) => !(i >= 20 && i < 40) && !(i >= 60 && i < 80));
  const { mean, covariance, logLikelihood } = followCourse(
    {
      clock: known.map((row) => row[0] as number),
      level: known.map((row) => row[1] as number),
      variance: known.map(() => 15_099),
      renewed: known.map(() => false),
    },
    prior,
    null,
  );
  expect(mean[0]).toBeCloseTo(798.31511462, 3);
  expect(covariance[0]).toBeCloseTo(4032.1867974, 2);
  const first = follow(1).logLikelihood;
  expect(logLikelihood - first - (59 / 2) * Math.log(2 * Math.PI)).toBeCloseTo(-380.5870628, 3);
});
