import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bottomEndRenewal, wearLives } from "@/lib/condition/lives.ts";
import { repairScopes } from "@/lib/schema/words.ts";
import { engineHistory, every10000 } from "./histories.ts";

const bounds = (given: Parameters<typeof engineHistory>[0], cylinder: number) =>
  wearLives(engineHistory(given))
    .filter((life) => life.cylinder === cylinder)
    .map((life) => [life.fromX, life.toX, life.startedBy?.scope ?? null]);

describe("wearLives", () => {
  test("without repairs each cylinder has one life from the start on", () => {
    expect(wearLives(engineHistory({}))).toHaveLength(4);
    expect(bounds({}, 3)).toEqual([[40_000, null, null]]);
  });

  test("top-end, bottom-end and complete repairs give a baseline to the cylinders that they name", () => {
    const repairs = [
      { x: 60_000, scope: "top-end" as const, cylinders: [4] },
      { x: 80_000, scope: "bottom-end" as const, cylinders: [1, 4] },
      { x: 90_000, scope: "complete" as const },
    ];
    expect(bounds({ repairs }, 4)).toEqual([
      [40_000, 60_000, null],
      [60_000, 80_000, "top-end"],
      [80_000, 90_000, "bottom-end"],
      [90_000, null, "complete"],
    ]);
    expect(bounds({ repairs }, 2)).toEqual([
      [40_000, 90_000, null],
      [90_000, null, "complete"],
    ]);
  });

  test("an adjustment gives none", () => {
    expect(bounds({ repairs: [{ x: 60_000, scope: "adjustment" }] }, 1)).toEqual([[40_000, null, null]]);
  });

  test("the first life reaches back to whatever was recorded first", () => {
    expect(bounds({ tests: [{ x: 30_000, values: [8, 8, 8, 8] }] }, 1)).toEqual([[30_000, null, null]]);
  });

  test("lives follow each other without a gap or an overlap, whatever the repairs", () => {
    const repair = fc.record({
      x: fc.integer({ min: 30_000, max: 34_000 }),
      scope: fc.constantFrom(...repairScopes),
      cylinders: fc.subarray([1, 2, 3, 4], { minLength: 1 }),
    });
    fc.assert(
      fc.property(fc.array(repair, { maxLength: 8 }), (repairs) => {
        const lives = wearLives(engineHistory({ repairs, tests: every10000([[8, 8, 8, 8]]) }));
        for (let cylinder = 1; cylinder <= 4; cylinder++) {
          const own = lives.filter((life) => life.cylinder === cylinder);
          expect(own.at(-1)?.toX).toBeNull();
          for (const [i, life] of own.entries()) {
            if (i > 0) expect(life.fromX).toBe(own[i - 1]?.toX);
            if (life.toX !== null) expect(life.toX).toBeGreaterThan(life.fromX);
          }
        }
      }),
    );
  });
});

test("bottomEndRenewal is the last repair that renewed the cylinder's rings", () => {
  const history = engineHistory({
    repairs: [
      { x: 60_000, scope: "complete" },
      { x: 70_000, scope: "bottom-end", cylinders: [2] },
      { x: 80_000, scope: "top-end" },
      { x: 85_000, scope: "adjustment" },
    ],
  });
  expect(bottomEndRenewal(history, 1)?.x).toBe(60_000);
  expect(bottomEndRenewal(history, 2)?.x).toBe(70_000);
  expect(bottomEndRenewal(engineHistory({}), 1)).toBeNull();
});
