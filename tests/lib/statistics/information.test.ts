import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { entropy, mutualInformation } from "@/lib/statistics/information.ts";

const simplex = (length: number) =>
  fc
    .array(fc.double({ min: 0.001, max: 1, noNaN: true }), { minLength: length, maxLength: length })
    .map((raw) => raw.map((p) => p / raw.reduce((sum, value) => sum + value, 0)));

describe("mutualInformation", () => {
  test("a result that is the same whatever the answer tells nothing; one that names the answer tells all", () => {
    const priors = [0.5, 0.3, 0.2];
    expect(
      mutualInformation(priors, [
        [0.4, 0.4, 0.4],
        [0.6, 0.6, 0.6],
      ]),
    ).toBeCloseTo(0, 12);
    const named = priors.map((_, i) => priors.map((_, j) => (i === j ? 1 : 0)));
    expect(mutualInformation(priors, named)).toBeCloseTo(entropy(priors), 12);
  });

  test("is the expected fall of entropy, whatever the figures, and never more than the entropy", () => {
    fc.assert(
      fc.property(simplex(4), fc.array(simplex(3), { minLength: 4, maxLength: 4 }), (priors, given) => {
        const results = [0, 1, 2].map((r) => given.map((of) => of[r] as number));
        const after = results.reduce((sum, of) => {
          const joint = priors.map((p, i) => p * (of[i] as number));
          const whole = joint.reduce((a, b) => a + b, 0);
          return sum + whole * entropy(joint.map((p) => p / whole));
        }, 0);
        const bits = mutualInformation(priors, results);
        expect(bits).toBeCloseTo(entropy(priors) - after, 9);
        expect(bits).toBeLessThanOrEqual(entropy(priors) + 1e-12);
      }),
    );
  });

  test("a result that cannot come, or an answer that is excluded, adds nothing", () => {
    expect(
      mutualInformation(
        [1, 0],
        [
          [0, 1],
          [1, 0],
        ],
      ),
    ).toBe(0);
    expect(entropy([1, 0, 0])).toBeCloseTo(0, 12);
  });
});
