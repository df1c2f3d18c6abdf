import { expect, test } from "vitest";
import { entropy, mutualInformation } from "@/lib/statistics/information.ts";

/**
 * Cover & Thomas, Elements of Information Theory, 2nd ed. (Wiley 2006), example 2.2.1: a joint distribution of X (columns)
 * and Y (rows) with H(X) = 7/4 bits, H(Y) = 2 bits, H(X|Y) = 11/8 bits, so I(X;Y) = 3/8 bit.
 */
const joint = [
  [1 / 8, 1 / 16, 1 / 32, 1 / 32],
  [1 / 16, 1 / 8, 1 / 32, 1 / 32],
  [1 / 16, 1 / 16, 1 / 16, 1 / 16],
  [1 / 4, 0, 0, 0],
];

test("entropies and mutual information of the textbook's joint distribution", () => {
  const ofX = [0, 1, 2, 3].map((x) => joint.reduce((sum, row) => sum + (row[x] as number), 0));
  const ofY = joint.map((row) => row.reduce((sum, p) => sum + p, 0));
  expect(entropy(ofX)).toBeCloseTo(7 / 4, 12);
  expect(entropy(ofY)).toBeCloseTo(2, 12);
  const results = joint.map((row) => row.map((p, x) => p / (ofX[x] as number)));
  expect(mutualInformation(ofX, results)).toBeCloseTo(3 / 8, 12);
});
