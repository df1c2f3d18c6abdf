import { describe, expect, test } from "vitest";
import { isTied, pairsToTie, toggledTie } from "@/app/_ui/models/ties.ts";

describe("ties between cylinders", () => {
  test("are made and undone by the same press, whichever way round they were written", () => {
    expect(toggledTie([[2, 3]], [1, 2])).toEqual([
      [1, 2],
      [2, 3],
    ]);
    expect(
      toggledTie(
        [
          [2, 1],
          [2, 3],
        ],
        [1, 2],
      ),
    ).toEqual([[2, 3]]);
    expect(isTied([[2, 1]], [1, 2])).toBe(true);
  });
  test("may join what stands side by side in a bank, not across banks", () => {
    expect(pairsToTie("v", 6, []).beside).toEqual([
      [1, 2],
      [2, 3],
      [4, 5],
      [5, 6],
    ]);
    expect(pairsToTie("opposed", 4, []).beside).toEqual([
      [1, 3],
      [2, 4],
    ]);
    expect(pairsToTie("in-line", 1, [])).toEqual({ beside: [], others: [] });
  });
  test("of cylinders that stand elsewhere can be undone as well, but not of cylinders that there are not", () => {
    expect(
      pairsToTie("in-line", 4, [
        [1, 2],
        [1, 3],
        [4, 5],
      ]).others,
    ).toEqual([[1, 3]]);
  });
});
