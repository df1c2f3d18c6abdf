import { describe, expect, test } from "vitest";
import { conditioned, every10000 } from "./histories.ts";

const all = (value: number) => Array(4).fill(value) as number[];
const codes = (values: readonly number[], common = {}) =>
  conditioned({ tests: every10000(values.map(all), common) }).tests.map(({ doubts }) =>
    doubts.map(({ code }) => code).join(),
  );

describe("the last of few tests", () => {
  test("far worse than the one or two before it is doubted, and nothing else", () => {
    expect(codes([8, 45])).toEqual(["", "last-of-few"]);
    expect(codes([8, 8, 20])).toEqual(["", "", "last-of-few"]);
    expect(codes([1180, 1175, 830], { measure: "compression-dry" })).toEqual(["", "", "last-of-few"]);
  });

  test("with three before it their line tells; the test before the last is not taken for the odd one", () =>
    expect(codes([8, 8, 8, 45])).toEqual(["", "", "", "all-cylinders-off"]));

  test("within wear and repeatability, better, or taken back it is not", () => {
    for (const values of [[8], [8, 12], [8, 9, 14], [20, 8], [8, 45, 8]]) {
      expect(codes(values).join(), values.join()).not.toContain("last-of-few");
    }
  });

  test("some cylinders alone are no doubt of the test", () => {
    const rows = [all(8), [8, 45, 8, 8]];
    expect(conditioned({ tests: every10000(rows) }).tests.flatMap(({ doubts }) => doubts)).toEqual([]);
  });

  test("accepted by a person it keeps its weight", () => {
    const tests = every10000([all(8), all(45)]).map((of, i) =>
      i === 0
        ? of
        : { ...of, judgements: [{ cylinder: null, verdict: "accepted" as const, reason: "seen", by: "lead" }] },
    );
    expect(conditioned({ tests }).tests[1]?.weights).toEqual([1, 1, 1, 1]);
  });
});
