import { describe, expect, test } from "vitest";
import { posterior } from "@/lib/cause/bayes.ts";
import { callsOf } from "@/lib/cause/calls.ts";
import { addCounts, countStripDowns, noCounts, startingWeight } from "@/lib/cause/counts.ts";
import { evidence, priors } from "@/lib/cause/evidence.ts";
import { stripDownsOf } from "@/lib/cause/strip-downs.ts";
import { tableFor } from "@/lib/cause/table.ts";
import type { StripDown } from "@/lib/schema/strip-down.ts";
import { type Cause, causes } from "@/lib/schema/words.ts";
import { type EngineGiven, engine, leakDowns } from "./engines.ts";

const at = (cause: Cause) => causes.indexOf(cause);
const exhaustHeard = leakDowns([
  [7, 7, 7, 7],
  [7, { value: 20, heardAt: ["exhaust"] }, 7, 7],
]);
/** Opened after the test of March 2026. */
const repaired = (given: Partial<NonNullable<EngineGiven["repairs"]>[number]> = {}) =>
  ({ date: "2026-04-02", x: 176_000, scope: "top-end", cylinders: [2], found: ["exhaust-valve"], ...given }) as const;
const opened = (given: EngineGiven) => stripDownsOf(engine(given).history);

describe("what had been seen before a cylinder was opened", () => {
  test("the evidence of the day before, and nothing of that day or later", () => {
    const [one] = opened({ tests: exhaustHeard, repairs: [repaired()] });
    expect(one).toMatchObject({ unit: "V-1", engineModel: "petrol-4-a", cylinder: 2, tested: true });
    expect(one?.seen.map(({ id }) => id)).toContain("heard-exhaust");
    expect(one?.asked).toContain("heard");
    expect(one?.asked).not.toContain("check-borescope");
    const sameDay = { measure: "leak-down" as const, date: "2026-04-02", x: 176_000, readings: [7, 60, 7, 7] };
    const later = { ...sameDay, date: "2026-05-02", x: 177_000 };
    const check = { check: "borescope" as const, result: "fault" as const, cylinder: 2, remarks: "cause: piston" };
    const with_ = (more: EngineGiven) =>
      opened({ ...more, tests: [...exhaustHeard, ...(more.tests ?? [])], repairs: [repaired()] });
    expect(with_({ tests: [sameDay, later] })).toEqual([one]);
    expect(with_({ checks: [{ ...check, date: "2026-04-02" }] })).toEqual([one]);
    expect(with_({ checks: [{ ...check, date: "2026-04-01" }] })).not.toEqual([one]);
  });

  test("each cylinder with its own finding, sound ones too; those told of the whole engine are of the weakest", () => {
    const findings = [
      { cylinder: 1, causes: [] },
      { cylinder: 2, causes: ["exhaust-valve"] as const },
    ];
    expect(
      opened({ tests: exhaustHeard, repairs: [repaired({ findings })] }).map(({ cylinder, found }) => [
        cylinder,
        found,
      ]),
    ).toEqual([
      [1, []],
      [2, ["exhaust-valve"]],
    ]);
    const whole = opened({ tests: exhaustHeard, repairs: [repaired({ cylinders: [1, 2, 3, 4] })] });
    expect(whole.map(({ cylinder }) => cylinder)).toEqual([2]);
  });

  test("a repair that tells nothing of what was found, and a swap, open nothing", () => {
    expect(opened({ tests: exhaustHeard, repairs: [repaired({ found: [] })] })).toEqual([]);
    expect(opened({ tests: exhaustHeard, repairs: [repaired({ scope: "engine-swap" })] })).toEqual([]);
  });

  test("never tested before: nothing was called", () => {
    const [one] = opened({ repairs: [repaired()] });
    expect(one?.tested).toBe(false);
    const [call] = callsOf([one as StripDown], {});
    expect([call?.called, call?.right]).toEqual([null, null]);
  });
});

/** So many strip-downs of one kind: air at the exhaust, and this found. */
const many = (count: number, found: readonly Cause[], day = 1): readonly StripDown[] =>
  Array.from({ length: count }, (_, i) => ({
    engine: `E-${i}`,
    unit: `V-${i}`,
    engineModel: "petrol-4-a",
    meterUnit: "km",
    date: `2026-01-${String(day + i).padStart(2, "0")}`,
    cylinder: 1,
    scope: "top-end",
    found,
    tested: true,
    seen: [{ id: "heard-exhaust", strength: 1, renewed: 0 }],
    asked: ["heard"],
  }));

describe("strip-downs as Dirichlet counts", () => {
  test("the posterior mean, worked by hand: starting counts and those seen over all that were asked", () => {
    const counts = countStripDowns(many(6, ["head-gasket"]));
    const table = tableFor({}, counts);
    const start = evidence["heard-exhaust"].likelihoods[at("head-gasket")] as number;
    // 12 × 0.05 made-up sights in 12, then 6 real ones in 6: 6.6 of 18.
    expect(table.rows["heard-exhaust"].likelihoods[at("head-gasket")]).toBeCloseTo((12 * start + 6) / 18, 12);
    expect(startingWeight).toBe(12);
    // A place that was listened at and silent six times.
    const coolant = evidence["heard-coolant"].likelihoods[at("head-gasket")] as number;
    expect(table.rows["heard-coolant"].likelihoods[at("head-gasket")]).toBeCloseTo((12 * coolant) / 18, 12);
    // Nobody made a wet test, and nothing was learned of one; nor of a cause that was not found.
    expect(table.rows["wet-rise"].likelihoods).toEqual(evidence["wet-rise"].likelihoods);
    expect(table.rows["heard-exhaust"].likelihoods[at("piston")]).toBe(
      evidence["heard-exhaust"].likelihoods[at("piston")],
    );
    expect(table.causePriors[at("head-gasket")]).toBeCloseTo((12 * (priors[at("head-gasket")] as number) + 6) / 18, 12);
  });

  test("the order does not matter, parts add up, and a cylinder that was opened and found sound teaches nothing", () => {
    const some = [...many(3, ["exhaust-valve"]), ...many(2, ["piston", "rings-or-bore"])];
    expect(countStripDowns(some.toReversed())).toEqual(countStripDowns(some));
    expect(addCounts(countStripDowns(some.slice(0, 2)), countStripDowns(some.slice(2)))).toEqual(countStripDowns(some));
    expect(countStripDowns(many(4, []))).toEqual(noCounts);
    expect(countStripDowns(many(1, ["piston", "rings-or-bore"]))).toMatchObject({ cases: 1, together: 1 });
  });

  test("one finding moves a call little, several that agree turn it", () => {
    const called = (counts: typeof noCounts) =>
      posterior([{ id: "heard-exhaust", strength: 1, slots: {}, renewed: 0 }], tableFor({}, counts)).shares[
        at("head-gasket")
      ] as number;
    const start = called(noCounts);
    expect(called(countStripDowns(many(1, ["head-gasket"])))).toBeLessThan(start + 0.15);
    expect(called(countStripDowns(many(20, ["head-gasket"])))).toBeGreaterThan(0.5);
  });

  test("what a model's file says is the start that strip-downs go on from", () => {
    const model = { evidence: { "heard-exhaust": { likelihoods: { "head-gasket": 0.4 }, reason: "siamesed port" } } };
    const of = (counts: typeof noCounts) => tableFor(model, counts).rows["heard-exhaust"].likelihoods;
    expect(of(noCounts)[at("head-gasket")]).toBe(0.4);
    expect(of(noCounts)[at("exhaust-valve")]).toBe(evidence["heard-exhaust"].likelihoods[at("exhaust-valve")]);
    expect(of(countStripDowns(many(12, ["head-gasket"])))[at("head-gasket")]).toBeCloseTo(0.7, 12);
  });
});

describe("how often each call was right", () => {
  test("class called beside class found, the latest first; two classes found make either right", () => {
    const calls = callsOf(
      [
        ...many(1, ["exhaust-valve"], 1),
        ...many(1, ["rings-or-bore"], 2),
        ...many(1, ["rings-or-bore", "exhaust-valve"], 3),
        ...many(1, [], 4),
        ...many(1, ["test-set-up"], 5),
      ],
      {},
    );
    expect(calls.map(({ called, found, right }) => [called?.class, found, right])).toEqual([
      ["top-end", "test-set-up", false],
      ["top-end", "sound", false],
      ["top-end", "both", true],
      ["top-end", "bottom-end", false],
      ["top-end", "top-end", true],
    ]);
    expect(calls.at(-1)?.called?.cause).toBe("exhaust-valve");
  });

  test("what was issued before that day stays as it was called, and teaches as it would without", () => {
    const cases = [...many(1, ["exhaust-valve"], 1), ...many(1, ["exhaust-valve"], 2)];
    const causes = [{ cause: "rings-or-bore" as const, probability: 0.6, because: [], against: [] }];
    const then = { asOf: "2023-12-01", topEnd: 0.3, bottomEnd: 0.65, testSetUp: 0.05, causes };
    const plain = callsOf(cases, {});
    const [later, first] = callsOf(cases, {}, (one) => (one === cases[0] ? then : null));
    expect(first).toMatchObject({
      called: { class: "bottom-end", probability: 0.65, cause: "rings-or-bore" },
      issued: "2023-12-01",
      right: false,
    });
    expect(later).toEqual(plain[0]);
    expect(later?.issued).toBeNull();
  });

  test("no case is judged by a table that has seen it, or one of its day or later", () => {
    const first = many(1, ["rings-or-bore"], 1);
    const probability = (more: readonly StripDown[]) =>
      callsOf([...first, ...more], {}).find((call) => call.case === first[0])?.called?.probability;
    const alone = probability([]);
    expect(probability(many(10, ["rings-or-bore"], 2))).toBe(alone);
    expect(probability(many(1, ["rings-or-bore"], 1).map((one) => ({ ...one, engine: "E-9" })))).toBe(alone);
    const later = callsOf([...many(15, ["rings-or-bore"], 1)], {});
    expect(later[0]?.called?.class).toBe("bottom-end");
    expect(later.at(-1)?.called?.class).toBe("top-end");
  });

  test("a model's own shares go before the table's, the others share the rest, and strip-downs go on from there", () => {
    const model = { causeShares: { shares: { "head-gasket": 0.3, piston: 0.02 }, reason: "long head studs" } };
    const of = (counts: typeof noCounts) => tableFor(model, counts).causePriors;
    const start = of(noCounts);
    expect(start.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    expect([start[at("head-gasket")], start[at("piston")]]).toEqual([
      expect.closeTo(0.3, 12),
      expect.closeTo(0.02, 12),
    ]);
    const ratio = (shares: readonly number[]) =>
      (shares[at("rings-or-bore")] as number) / (shares[at("exhaust-valve")] as number);
    expect(ratio(start)).toBeCloseTo(ratio(priors), 12);
    // 12 × 0.3 made-up cases in 12, then 6 real ones in 6.
    expect(of(countStripDowns(many(6, ["head-gasket"])))[at("head-gasket")]).toBeCloseTo((12 * 0.3 + 6) / 18, 12);
    expect(tableFor(model).rows["heard-exhaust"].likelihoods).toEqual(evidence["heard-exhaust"].likelihoods);
  });

  test("shares of all causes that miss 1 by their rounding are taken in proportion", () => {
    const shares = Object.fromEntries(causes.map((cause, i) => [cause, i === 0 ? 0.13 : 0.125]));
    const all = tableFor({ causeShares: { shares, reason: "counted" } }).causePriors;
    expect(all.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(all[0]).toBeCloseTo(0.13 / 1.005, 12);
  });

  test("a model of another share is called otherwise by the same finding", () => {
    const heard = [{ id: "heard-exhaust", strength: 0.3, slots: {}, renewed: 0 }] as const;
    const gasket = (model: Parameters<typeof tableFor>[0]) =>
      posterior(heard, tableFor(model)).shares[at("head-gasket")] as number;
    const often = gasket({ causeShares: { shares: { "head-gasket": 0.6 }, reason: "long head studs" } });
    expect(often).toBeGreaterThan(3 * gasket({}));
  });
});
