import { describe, expect, test } from "vitest";
import { diagnoseEngine } from "@/lib/cause/diagnose.ts";
import { hasParted, type Parting, partingOf } from "@/lib/cause/parting.ts";
import { recentTests } from "@/lib/cause/recent.ts";
import { asOf, engine, leakDowns, type TestGiven } from "./engines.ts";

/** How cylinder 2 stands to the others. */
function second(rows: readonly TestGiven["readings"][]): Parting {
  const readings = recentTests(engine({ tests: leakDowns(rows) }), asOf).byMeasure["leak-down"][1] ?? [];
  const parting = partingOf(readings, "km", (cylinder) => cylinder !== 2);
  if (parting === null) throw new Error("nothing to compare with");
  return parting;
}

describe("partingOf", () => {
  test("a cylinder that always read half as much again has not parted, however far above it stands", () => {
    const parting = second([
      [10, 15, 10, 10],
      [12, 18, 12, 12],
      [16, 24, 16, 16],
      [20, 30, 20, 20],
    ]);
    expect(hasParted(parting)).toBe(false);
    expect(parting.ratio).toBeGreaterThan(1.2);
    expect(Math.abs(parting.beyond)).toBeLessThan(5);
  });

  test("nor one that read three or four times as much in all of two or three tests, though few tests tell no ratio", () => {
    for (const row of [
      [10, 30, 10, 10],
      [10, 40, 10, 10],
      [3, 14, 3, 3],
    ])
      for (const tests of [2, 3, 4]) expect(hasParted(second(Array.from({ length: tests }, () => row)))).toBe(false);
  });

  test("a cylinder a little above siblings that hardly leak has parted where it comes to leak much", () => {
    const parting = second([
      [1, 3, 1, 1],
      [1, 3, 1, 1],
      [2, 20, 2, 2],
    ]);
    expect(hasParted(parting)).toBe(true);
    expect(parting.grew).toBeCloseTo(16, 5);
  });

  test("what a test gets wrong for all cylinders alike is no parting", () => {
    const parting = second([
      [8, 8, 8, 8],
      [16, 17, 16, 16],
      [8, 8, 8, 8],
      [18, 18, 18, 18],
    ]);
    expect(hasParted(parting)).toBe(false);
  });

  test("a step is found where it came, with the tests since, before, and what it reads now", () => {
    const parting = second([
      [8, 8, 8, 8],
      [8, 9, 8, 8],
      [8, 22, 8, 8],
      [8, 23, 9, 8],
    ]);
    expect(hasParted(parting)).toBe(true);
    expect(parting).toMatchObject({ since: 2, before: 2, sudden: true, to: 23 });
    expect(parting.beyond).toBeGreaterThan(10);
  });

  test("a rise over several tests is no step, and has a pace on the engine's own meter", () => {
    const parting = second([
      [8, 8, 8, 8],
      [8, 13, 8, 8],
      [8, 20, 8, 8],
      [8, 30, 8, 8],
    ]);
    expect(hasParted(parting)).toBe(true);
    expect(parting.sudden).toBe(false);
    // Some 20 points beyond the earlier proportion within 30,000 km, which take some 670 h.
    expect(parting.perThousandHours).toBeGreaterThan(27);
    expect(parting.perThousandHours).toBeLessThan(34);
  });

  test.each([
    ["8, 9, 13, 22: it grows ever faster", [9, 8, 8, 9, 13, 22]],
    ["14, 19, 24: on a line", [14, 19, 24]],
    ["three that rise", [8, 12, 24]],
    ["two tests: before the second there is no line", [8, 28]],
  ])("no step: %s", (_, rising) => {
    const parting = second(rising.map((own) => [8, own, 8, 8]));
    expect(parting.sudden).toBe(false);
    expect(hasParted(parting)).toBe(true);
  });

  test("what stood above from the first test on, and stays, came in no step and did not part", () => {
    const parting = second([22, 21, 23, 23, 22, 23].map((own) => [6, own, 7, 7]));
    expect(hasParted(parting)).toBe(false);
    expect(parting.sudden).toBe(false);
    // Neither is it held against a valve that it stood still while the engine hardly worked.
    const told = (x: readonly number[]) => {
      const rows = [22, 21, 23, 23, 22, 23].map((own) => [6, own, 7, 7]);
      const tests = leakDowns(rows).map((one, i) => ({ ...one, x: x[i] ?? 0 }));
      const [, of] = diagnoseEngine(engine({ tests }), { asOf });
      return of?.causes.flatMap(({ because }) => because).join("; ") ?? "";
    };
    expect(told([0, 1, 2, 3, 4, 5].map((i) => 20_000 * i))).toContain("did not part from them further");
    expect(told([0, 1, 2, 3, 4, 5].map((i) => 200 * i))).not.toContain("did not part from them further");
  });

  test("a step on a line that rose evenly before it is one", () => {
    const parting = second([8, 9, 10, 11, 26].map((own) => [8, own, 8, 8]));
    expect(parting).toMatchObject({ sudden: true, since: 1 });
  });

  test("one test, or a cylinder tested alone, has nothing to part from", () => {
    const alone = recentTests(
      engine({
        tests: leakDowns([
          [null, 20, null, null],
          [null, 30, null, null],
        ]),
      }),
      asOf,
    );
    expect(partingOf(alone.byMeasure["leak-down"][1] ?? [], "km", () => false)).toBeNull();
    const once = recentTests(engine({ tests: leakDowns([[7, 20, 7, 7]]) }), asOf);
    expect(partingOf(once.byMeasure["leak-down"][1] ?? [], "km", (cylinder) => cylinder !== 2)).toBeNull();
  });
});
