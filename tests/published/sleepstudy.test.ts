/**
 * Mixed models against lme4 on the sleepstudy data (Belenky et al. 2003; Bates, Mächler, Bolker and Walker 2015): with
 * lme4's variances and fixed effects given, the level and rate of each subject beside the common line are its conditional
 * modes (BLUPs), and their variance is its conditional variance. Random intercept: printed and recomputed; uncorrelated
 * intercept and slope: recomputed by two packages, to 1e-6.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { followCourse } from "@/lib/projection/course.ts";

interface Fit {
  readonly fixed: { readonly "(Intercept)": number; readonly x: number };
  readonly varcomp: Readonly<Record<string, { readonly vcov: number }>>;
  readonly blup: readonly {
    readonly unit: string;
    readonly "(Intercept)": number;
    readonly x?: number;
    readonly cond_var_intercept?: number;
  }[];
}

const read = (file: string) => readFileSync(new URL(`./data/${file}`, import.meta.url), "utf8");
const fits = JSON.parse(read("i_sleepstudy_lmm.json")) as Readonly<Record<"random_intercept" | "uncorrelated", Fit>>;
const rows = read("i_sleepstudy.csv")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => line.split(",").map(Number));

function follow({ fixed, varcomp }: Fit, unit: string) {
  const own = rows.filter((row) => String(row[2]) === unit);
  const variance = (name: string) => varcomp[name]?.vcov ?? 0;
  return followCourse(
    {
      clock: own.map((row) => row[1] as number),
      level: own.map((row) => row[0] as number),
      variance: own.map(() => variance("Residual NA ")),
      renewed: own.map(() => false),
    },
    {
      level: fixed["(Intercept)"],
      levelSd: Math.sqrt(variance("g (Intercept) ")),
      rate: fixed.x,
      rateSd: Math.sqrt(variance("g.1 x ")),
      wander: 0,
      renewalSd: 0,
      renewsRate: false,
      tails: "normal",
    },
    null,
  );
}

test.each(["random_intercept", "uncorrelated"] as const)("%s: the part of each subject", (name) => {
  const fit = fits[name];
  expect(fit.blup).toHaveLength(18);
  for (const subject of fit.blup) {
    const { mean, covariance } = follow(fit, subject.unit);
    expect((mean[0] as number) - fit.fixed["(Intercept)"], subject.unit).toBeCloseTo(subject["(Intercept)"], 5);
    expect((mean[1] as number) - fit.fixed.x, subject.unit).toBeCloseTo(subject.x ?? 0, 5);
    if (subject.cond_var_intercept !== undefined) {
      expect(covariance[0], subject.unit).toBeCloseTo(subject.cond_var_intercept, 5);
    }
  }
});
