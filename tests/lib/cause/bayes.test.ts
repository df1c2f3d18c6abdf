import { describe, expect, test } from "vitest";
import { type Finding, posterior } from "@/lib/cause/bayes.ts";
import { keptForTheUnknown } from "@/lib/cause/evidence.ts";
import { causesOf, hypotheses, togetherLikelihood } from "@/lib/cause/hypotheses.ts";
import { tableFor } from "@/lib/cause/table.ts";
import { twoCauses } from "@/lib/cause/two-causes.ts";
import type { EvidenceId } from "@/lib/schema/evidence-ids.ts";
import { causes } from "@/lib/schema/words.ts";

const table = tableFor({});
const seen = (id: EvidenceId, strength = 1, renewed = 0): Finding => ({ id, strength, slots: {}, renewed });
const share = (findings: readonly Finding[], cause: (typeof causes)[number]) =>
  posterior(findings, table).shares[causes.indexOf(cause)] as number;

test.each([Number.NaN, Number.POSITIVE_INFINITY, -1])("a strength of %d is a programmer's mistake", (strength) => {
  expect(() => posterior([seen("all-low", strength)], table)).toThrow("strength");
});

describe("two causes at once", () => {
  test("every cause alone and every two real ones, none twice; a fault of the test stands alone", () => {
    expect(hypotheses).toHaveLength(8 + 21);
    expect(new Set(hypotheses.map((one) => one.join("+"))).size).toBe(29);
    expect(hypotheses.filter((one) => one.length === 2 && causesOf(one).includes("test-set-up"))).toEqual([]);
    expect(table.priors.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
  });

  test("a sight is seen unless both fail to show it, over one background; an absence needs both to leave it", () => {
    // Worked by hand: each cause adds to the background of 0.1 by itself, 1 − 0.4 × 0.5 / 0.9.
    expect(togetherLikelihood("sight", [0.6, 0.5, 0.1], 0, 1)).toBeCloseTo(1 - (0.4 * 0.5) / 0.9, 12);
    // One that shows it no more than the background does adds nothing.
    expect(togetherLikelihood("sight", [0.6, 0.5, 0.1], 0, 2)).toBeCloseTo(0.6, 12);
    expect(togetherLikelihood("absence", [0.9, 0.3, 0.5], 0, 1)).toBeCloseTo(0.3, 12);
    expect(togetherLikelihood("absence", [0.9, 0.3, 0.5], 1, 2)).toBeCloseTo((0.3 * 0.5) / 0.9, 12);
  });

  test("crankcase and exhaust both heard clearly: rings and an exhaust valve, in words and in both shares", () => {
    const both = [seen("heard-crankcase", 1.5), seen("heard-exhaust", 1.5)];
    const { hypotheses: all } = posterior(both, table);
    const two = twoCauses(all);
    expect(two?.causes).toEqual(["rings-or-bore", "exhaust-valve"]);
    expect(two?.probability).toBeGreaterThan(0.5);
    for (const cause of ["rings-or-bore", "exhaust-valve"] as const) expect(share(both, cause)).toBeGreaterThan(0.1);
    expect(twoCauses(posterior([seen("heard-exhaust")], table).hypotheses)).toBeNull();
  });
});

describe("posterior", () => {
  test("Bayes' rule worked by hand over every cause alone and every two, one sight of air at the exhaust", () => {
    const row = table.rows["heard-exhaust"].ofHypotheses;
    const raw = hypotheses.map((_, h) => (table.priors[h] as number) * (row[h] as number));
    const whole = raw.reduce((sum, value) => sum + value, 0);
    posterior([seen("heard-exhaust")], table).hypotheses.forEach((p, h) => {
      const mixed =
        (1 - keptForTheUnknown) * ((raw[h] as number) / whole) + keptForTheUnknown * (table.priors[h] as number);
      expect(p).toBeCloseTo(mixed, 12);
    });
  });

  test("weights of evidence are log likelihood ratios of a cause against all others", () => {
    const at = causes.indexOf("exhaust-valve");
    const { likelihoods, weights } = table.rows["heard-exhaust"];
    const others = causes.map((_, i) => i).filter((i) => i !== at);
    const prior = (i: number) => table.causePriors[i] as number;
    const mean =
      others.reduce((sum, i) => sum + prior(i) * (likelihoods[i] as number), 0) /
      others.reduce((sum, i) => sum + prior(i), 0);
    expect(weights[at]).toBeCloseTo(Math.log((likelihoods[at] as number) / mean), 12);
    expect(posterior([seen("heard-exhaust", 0.5)], table).weights[0]?.[at]).toBeCloseTo(
      (weights[at] as number) / 2,
      12,
    );
  });

  test("what was seen of a part before it was renewed is silent of it, alone or beside another", () => {
    const exhaust = 1 << causes.indexOf("exhaust-valve");
    const { hypotheses: now } = posterior([seen("heard-exhaust", 1, exhaust)], table);
    const { hypotheses: before } = posterior([], table);
    now.forEach((p, h) => {
      expect(p).toBeCloseTo(before[h] as number, 12);
    });
  });
});
