import { describe, expect, test } from "vitest";
import { boresInWords } from "../../app/_ui/bores.tsx";
import { cylinderRows } from "../../app/_ui/cylinder-rows.ts";

describe("cylinders as they stand", () => {
  test("in line: one row", () => expect(cylinderRows("in-line", 4)).toEqual([[1, 2, 3, 4]]));
  test("a V: two banks", () =>
    expect(cylinderRows("v", 8)).toEqual([
      [1, 2, 3, 4],
      [5, 6, 7, 8],
    ]));
  test("opposed: odd against even", () =>
    expect(cylinderRows("opposed", 4)).toEqual([
      [1, 3],
      [2, 4],
    ]));
  test("a single is one row, whatever its layout says", () => expect(cylinderRows("v", 1)).toEqual([[1]]));
});

describe("bores in words", () => {
  test("all alike are told at once", () => {
    expect(boresInWords(["sound", "sound"])).toBe("All 2 cylinders sound.");
    expect(boresInWords([null])).toBe("One cylinder, never tested.");
  });
  test("the worst come first, the sound last", () =>
    expect(boresInWords(["sound", "past-limit", "plan", "watch", "watch"])).toBe(
      "Cylinder 2 past limit; cylinder 3 plan; cylinders 4 and 5 watch; the other sound.",
    ));
});
