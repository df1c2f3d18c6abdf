import { describe, expect, it } from "vitest";
import { areJoined, cylinderColour, hasSquarePoints, standingRows } from "@/app/_ui/unit/standing.ts";
import { dieselModel, v8Model } from "./fixture.ts";

describe("standingRows", () => {
  it("puts an in-line engine in one row", () => {
    expect(standingRows(dieselModel)).toEqual([[1, 2, 3, 4]]);
  });

  it("puts a V in two banks, told by its gasket bridges", () => {
    expect(standingRows(v8Model)).toEqual([
      [1, 2, 3, 4],
      [5, 6, 7, 8],
    ]);
    const crossCounted = {
      cylinders: 6,
      layout: "v",
      neighbours: [
        [1, 3],
        [3, 5],
        [4, 2],
        [4, 6],
      ],
    } as const;
    expect(standingRows({ ...crossCounted, neighbours: crossCounted.neighbours.map(([a, b]) => [a, b]) })).toEqual([
      [1, 3, 5],
      [2, 4, 6],
    ]);
  });

  it("halves a V with separate heads, and counts an opposed engine across", () => {
    expect(standingRows({ cylinders: 4, layout: "v", neighbours: [] })).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(standingRows({ cylinders: 4, layout: "opposed", neighbours: [] })).toEqual([
      [1, 3],
      [2, 4],
    ]);
  });

  it("gives a single its one place in any layout", () => {
    expect(standingRows({ cylinders: 1, layout: "v", neighbours: [] })).toEqual([[1]]);
  });
});

describe("areJoined", () => {
  it("holds either way round and not across banks", () => {
    expect(areJoined(v8Model.neighbours, 2, 1)).toBe(true);
    expect(areJoined(v8Model.neighbours, 4, 5)).toBe(false);
  });
});

describe("points and colours", () => {
  it("squares the second bank and cylinders 9 to 16, whose colours repeat", () => {
    expect([1, 4, 5, 8].map((n) => hasSquarePoints(v8Model, n))).toEqual([false, false, true, true]);
    const long = { cylinders: 16, layout: "in-line", neighbours: [] } as const;
    expect([8, 9].map((n) => hasSquarePoints({ ...long, neighbours: [] }, n))).toEqual([false, true]);
    expect([1, 8, 9, 16].map(cylinderColour)).toEqual(["var(--c1)", "var(--c8)", "var(--c1)", "var(--c8)"]);
  });
});
