import { describe, expect, test } from "vitest";
import { conditioned, every10000 } from "./histories.ts";

const sound = [0, 1, 2, 3].map((i) => [1200, 1205, 1195, 1200].map((v) => v - 5 * i));
const share = (by: readonly number[]) =>
  [1180, 1185, 1175, 1180].map((v, i) => Math.round(v * (1 - (by[i] as number))));
const judged = (rows: readonly (readonly number[])[], common = {}) =>
  conditioned({ tests: every10000(rows, { measure: "compression-dry", ...common }) }).tests;
const slow = (rows: readonly (readonly number[])[], common = {}) =>
  judged(rows, common).map(({ doubts }) => doubts.some(({ code }) => code === "slow-cranking"));
const falling = share([0, 0.07, 0.14, 0.21]);

describe("a battery that tires", () => {
  test("an even fall in the order of testing is named on the last test, with or without the order noted", () => {
    for (const common of [{ inOrder: true }, {}]) {
      expect(slow([...sound, falling], common)).toEqual([false, false, false, false, true]);
    }
    const last = judged([...sound, falling], { inOrder: true, setUp: { crankingRpm: 170 } })[4];
    expect(last?.doubts[0]?.words).toMatch(
      /^readings fall in the order of testing, by 21 % in all \(cranked at 170\/min\): probably a battery that tires; charge it and test again$/,
    );
    expect(Math.max(...(last?.weights ?? [1]))).toBeLessThan(0.2);
  });

  test("with one test before it too, and where the next was back", () => {
    expect(slow([sound[0] as number[], falling])).toEqual([false, true]);
    expect(slow([...sound.slice(0, 2), falling, ...sound.slice(2)])).toEqual([false, false, true, false, false]);
  });

  test("cylinders that hold next to nothing have nothing for a battery to take", () => {
    const tests = judged([
      [4e-169, 3e-169, 2e-169, 1e-169],
      [1e-169, 1e-169, 1e-169, 1e-169],
    ]);
    expect(tests.flatMap(({ weights }) => weights).every(Number.isFinite)).toBe(true);
    expect(tests.flatMap(({ doubts }) => doubts).some(({ code }) => code === "slow-cranking")).toBe(false);
  });

  test("one bad cylinder, a gasket between the last two, and scatter are none", () => {
    const none = Array(5).fill(false);
    for (const by of [
      [0, 0.01, 0.02, 0.21],
      [0, 0.01, 0.2, 0.21],
      [0.01, 0, 0.02, 0.03],
      [0.21, 0.14, 0.07, 0],
    ]) {
      expect(slow([...sound, share(by)]), by.join(" ")).toEqual(none);
    }
  });
});

describe("a battery that tires, with a leak-down test of the same day", () => {
  const leak = [8, 8, 9, 8];
  const last = (rows: readonly (readonly number[])[]) => {
    const days = rows.flatMap((values, i) => {
      const at = { x: 40_000 + 10_000 * i, date: `202${1 + i}-03-10` };
      return [
        { ...at, measure: "compression-dry" as const, values },
        { ...at, values: leak },
      ];
    });
    return conditioned({ tests: days }).tests.at(-2);
  };

  test.each([15, 18, 21, 24])("a fall of %i in 100 is the battery's, and not the last cylinder's", (percent) => {
    const falls = share([0, 1, 2, 3].map((i) => (i * percent) / 300));
    const { doubts, weights } = last([...sound, falls]) ?? { doubts: [], weights: [1] };
    expect(doubts.map(({ code }) => code)).toEqual(["slow-cranking"]);
    expect(Math.max(...weights)).toBeLessThan(0.3);
    expect(Math.min(...weights)).toBe(Math.max(...weights));
  });

  test("an engine whose cylinders part evenly, written in reverse, is no battery's doing", () => {
    const usual = [1050, 1100, 1150, 1200];
    expect(last([usual, usual, usual.toReversed()])?.doubts.map(({ code }) => code)).toEqual(["row-reversed"]);
  });
});

describe("a cold engine that nobody noted", () => {
  const leak = Array.from({ length: 5 }, () => [8, 8, 9, 8]);
  const both = (leakBy: number, dryBy: number) => {
    const rows = leak.map((row, i) => (i === 4 ? row.map((v) => v + leakBy) : row));
    const dry = Array.from({ length: 5 }, (_, i) =>
      [1200, 1205, 1195, 1200].map((v) => (i === 4 ? v * (1 - dryBy) : v)),
    );
    const { tests } = conditioned({
      tests: [...every10000(rows), ...every10000(dry, { measure: "compression-dry" })].toSorted((a, b) => a.x - b.x),
    });
    return tests.slice(-2).map(({ doubts, weights }) => ({
      words: doubts.map(({ words }) => words).join(),
      weight: Math.max(...weights),
    }));
  };

  test("leakage up and compression down on one day bear each other out", () => {
    for (const { words, weight } of both(8, 0.11)) {
      expect(words).toContain("probably a cold engine");
      expect(weight).toBeLessThan(0.5);
    }
  });

  test("either alone hides among what tests repeat to", () => {
    for (const some of [both(6, 0), both(0, 0.1)]) expect(some.map(({ words }) => words)).toEqual(["", ""]);
  });
});
