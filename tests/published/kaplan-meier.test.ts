/**
 * Product-limit estimate: weeks of remission of 21 children under 6-mercaptopurine, 12 of them still in remission when last
 * seen (Freireich and others, Blood 21, 1963; worked in Cox & Oakes, Analysis of Survival Data, 1984, ch. 1), where those
 * still in remission after 6, 7, 10, 13, 16, 22 and 23 weeks are 0.857, 0.807, 0.753, 0.690, 0.627, 0.538 and 0.448.
 */
import { expect, test } from "vitest";
import { censoringWeights, shareEndedBy } from "@/lib/statistics/kaplan-meier.ts";

const ended = [6, 6, 6, 7, 10, 13, 16, 22, 23].map((at) => ({ at, ended: true }));
const left = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35].map((at) => ({ at, ended: false }));
const cases = [...left, ...ended];

test.each([
  [6, 0.857],
  [7, 0.807],
  [10, 0.753],
  [13, 0.69],
  [16, 0.627],
  [22, 0.538],
  [23, 0.448],
])("after %d weeks %d are in remission", (week, share) => {
  expect(1 - (shareEndedBy(cases, week) ?? Number.NaN)).toBeCloseTo(share, 3);
});

test("nothing is told beyond the last one seen, and with nobody left out it is a plain share", () => {
  expect(shareEndedBy(cases, 36)).toBeNull();
  expect(shareEndedBy(cases, 35)).toBeCloseTo(1 - 0.448, 3);
  expect(shareEndedBy(ended, 7)).toBeCloseTo(4 / 9, 12);
});

test("what is known, by its weights, gives the same shares (and all of it, the number of children)", () => {
  for (const week of [6, 7, 10, 13, 16, 22, 23]) {
    const weights = censoringWeights(cases, week);
    expect(weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(cases.length, 9);
    const came = cases.reduce((sum, one, i) => sum + (one.ended && one.at <= week ? (weights[i] as number) : 0), 0);
    expect(came / cases.length).toBeCloseTo(shareEndedBy(cases, week) ?? Number.NaN, 12);
  }
  // Beyond the last one seen some of the weight is missing.
  expect(censoringWeights(cases, 36).reduce((sum, w) => sum + w, 0)).toBeLessThan(cases.length - 1);
});
