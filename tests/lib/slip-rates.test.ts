import { expect, it } from "vitest";
import { slipRates } from "../bench/slips.ts";

/** Warnings that are wrong too often are not read, and those that find nothing are not worth their words. */

const seed = 20_260_702;
const unitsOfKind = 80;
/** For 1,000 honest tests, over all kinds of gauge; and on the worst kind, where chance is larger. */
const falseAlarms = { most: 5, mostOfKind: 8 };
/** Of slips that are plain. */
const leastFound = 0.8;
/** On coarse marks copied figures and figures that came out alike are the same: one kind of six tells few. */
const leastFoundCopied = 0.75;

const rates = slipRates(unitsOfKind, seed);

it.each(rates.map((rate) => [`${rate.where}: ${rate.code}, ${rate.planted}`, rate] as const))("%s", (_name, rate) => {
  expect(rate.slips).toBeGreaterThan(20);
  expect(rate.falseAlarms).toBeLessThanOrEqual(falseAlarms.most);
  expect(rate.mostFalseAlarms).toBeLessThanOrEqual(falseAlarms.mostOfKind);
  expect(rate.found).toBeGreaterThanOrEqual(rate.code === "copied" ? leastFoundCopied : leastFound);
});

it("the bounds are of warnings that are given at all", () => {
  expect(new Set(rates.map(({ code }) => code)).size).toBe(22);
  expect(rates.some((rate) => rate.falseAlarms > 0)).toBe(true);
});
