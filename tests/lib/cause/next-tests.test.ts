import { describe, expect, test } from "vitest";
import { posterior } from "@/lib/cause/bayes.ts";
import { nextTestIds, nextTests, settledWords, testGains } from "@/lib/cause/next-tests.ts";
import { tableFor } from "@/lib/cause/table.ts";

const table = tableFor({});
const open = (...ids: Parameters<typeof posterior>[0][number]["id"][]) =>
  posterior(
    ids.map((id) => ({ id, strength: 1, slots: {}, renewed: 0 })),
    table,
  ).hypotheses;
const gains = (...ids: Parameters<typeof open>) => testGains(open(...ids), { table, asked: [] });

describe("testGains", () => {
  test("each test has its hours and why, and settles between nothing and all of what is open", () => {
    for (const id of nextTestIds) {
      expect(nextTests[id].hours).toBeGreaterThan(0);
      expect(nextTests[id].effort.length).toBeGreaterThan(10);
    }
    for (const told of [gains(), gains("stands-out"), gains("heard-exhaust"), gains("all-raised-alike")]) {
      expect(told).toHaveLength(nextTestIds.length);
      for (const { share } of told) {
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
      }
    }
  });

  test("what a share is made of adds up to it: what is open, less what each result leaves by its chance", () => {
    const asked = ["heard"] as const;
    for (const told of [gains("stands-out"), testGains(open("heard-exhaust"), { table, asked: [...asked] })]) {
      for (const { share, parts } of told) {
        const { cause, repairClass, counts, results } = parts;
        const whole = cause.open + repairClass.open;
        expect(results.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 9);
        const left = results.reduce((sum, result) => sum + result.chance * result.left, 0);
        expect(whole - left).toBeCloseTo(cause.told + repairClass.told, 9);
        expect(share).toBeCloseTo((counts * (whole - left)) / whole, 9);
        expect(results.map(({ chance }) => chance)).toEqual(
          results.map(({ chance }) => chance).toSorted((a, b) => b - a),
        );
      }
    }
  });

  test("results are named by what is seen with them; a borescope by the part that it shows", () => {
    const seenBy = (id: string) =>
      gains("stands-out")
        .find((one) => one.id === id)
        ?.parts.results.map(({ seen }) => seen.join(" and "))
        .toSorted();
    expect(seenBy("wet")).toEqual(["", "wet-no-rise", "wet-rise"]);
    expect(seenBy("blow-by")).toHaveLength(9);
    expect(seenBy("borescope")).toEqual([
      "",
      "check-borescope-clear",
      "check-borescope-fault",
      "check-names-exhaust-valve",
      "check-names-inlet-valve",
      "check-names-piston",
      "check-names-rings-or-bore",
    ]);
  });

  test("the most for an hour first", () => {
    const perHour = gains("stands-out").map(({ share, hours }) => share / hours);
    expect(perHour).toEqual(perHour.toSorted((a, b) => b - a));
  });

  test("where the test itself is in doubt its repeat is worth more than where nothing is", () => {
    const of = (told: ReturnType<typeof gains>, id: string) => told.find((one) => one.id === id)?.share ?? 0;
    expect(of(gains("high-leakage-good-compression"), "re-test")).toBeGreaterThan(
      2 * of(gains("heard-coolant"), "re-test"),
    );
    expect(of(gains("heard-neighbour"), "coolant")).toBeGreaterThan(2 * of(gains("all-raised-alike"), "coolant"));
    expect(of(gains("low-compression-normal-leakage"), "lift")).toBeGreaterThan(2 * of(gains("heard-coolant"), "lift"));
  });

  test("what was asked is not asked again, and a second listening is worth half", () => {
    const asked = testGains(open("stands-out"), {
      table,
      asked: ["check-borescope", "check-blow-by", "check-oil-use", "heard"],
    });
    const ids = asked.map(({ id }) => id);
    expect(ids).not.toContain("borescope");
    expect(ids).not.toContain("blow-by");
    const listen = (told: typeof asked) => told.find(({ id }) => id === "listen")?.share ?? 0;
    expect(listen(asked)).toBeCloseTo(listen(gains("stands-out")) / 2, 12);
  });

  test("a share is told in words that grow with it", () => {
    expect([0.05, 0.2, 0.3, 0.5, 0.6, 0.9].map(settledWords)).toEqual([
      "a little of what is open",
      "about a fifth of what is open",
      "about a third of what is open",
      "about half of what is open",
      "most of what is open",
      "nearly all that is open",
    ]);
  });
});
