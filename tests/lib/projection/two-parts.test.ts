import { describe, expect, test } from "vitest";
import { plainScale } from "@/lib/projection/scale.ts";
import { twoParts } from "@/lib/projection/two-parts.ts";
import { observed } from "./engine-given.ts";

const error = { readingSd: 1, readingShare: 0 };
const none = [null, null, null, null];

describe("twoParts", () => {
  test("adds up to what was read", () => {
    const rows = [
      [8, 9, 7, 12],
      [9, 9, 8, 13],
      [13, 14, 11, 18],
    ];
    const { common, own } = twoParts(observed(rows), plainScale, error, none);
    for (const [c, part] of own.entries()) {
      for (const [t, level] of part.level.entries()) {
        expect(level + (common.level[t] as number)).toBeCloseTo(rows[t]?.[c] ?? Number.NaN, 10);
      }
    }
  });

  test("a shift of a whole test is in the common part alone", () => {
    const rows = [8, 8, 12, 8, 8].map((v) => [v, v + 1, v - 1, v + 3]);
    const { common, own } = twoParts(observed(rows), plainScale, error, none);
    expect((common.level[2] as number) - (common.level[1] as number)).toBeCloseTo(4, 6);
    for (const part of own) for (const level of part.level) expect(level).toBeCloseTo(part.level[0] as number, 6);
  });

  test("at the first look two of four that jump do not pull the sound two down", () => {
    const rows = [...Array(6).fill([8, 8, 8, 8]), [8, 20, 21, 8]];
    const { own } = twoParts(observed(rows), plainScale, error, null);
    expect(own[1]?.level.at(-1)).toBeGreaterThan(8);
    expect(own[0]?.level.at(-1)).toBeGreaterThan(-3);
  });

  test("a cylinder that is known to have a fault has next to no say", () => {
    const rows = [...Array(4).fill([8, 8, 8, 8]), [8, 30, 8, 8], [8, 40, 8, 8]];
    const { common } = twoParts(observed(rows), plainScale, error, [null, 4, null, null]);
    expect(common.level.at(-1)).toBeCloseTo(8, 0);
  });

  test("a cylinder that was not measured leaves the others' offsets where they were", () => {
    const whole = observed(Array(5).fill([8, 9, 7, 16]));
    const tests = whole.tests.map((one, t) =>
      t === 3
        ? {
            ...one,
            segment: [0, 1, 2],
            badness: one.badness.slice(0, 3),
            weights: [1, 1, 1],
            referralVariance: [0, 0, 0],
            roundingVariance: [0, 0, 0],
            heard: [0, 0, 0],
          }
        : one,
    );
    const { common } = twoParts({ ...whole, tests }, plainScale, error, none);
    expect(common.level[3]).toBeCloseTo(common.level[2] as number, 1);
  });

  test("a whole test is as doubtful as its least doubtful reading, and believed only where all are", () => {
    const spoilt = [
      [0.05, 0.05, 0.05, 0.7],
      [0.75, 0.75, 0, 0.9],
      [0, 0, 0, 0.05],
      [0, 0, 0, 0],
    ];
    const { common, own } = twoParts(observed(Array(4).fill([8, 9, 7, 16]), { spoilt }), plainScale, error, none);
    expect(common.spoilt).toEqual([0.05, 0.75, 0.05, 0]);
    expect(own[3]?.spoilt).toEqual([0.7, 0.9, 0.05, 0]);
  });

  test("half of an engine renewed: the other half carries the common part on", () => {
    const segment = (late: boolean) => (late ? [4, 5, 2, 3] : [0, 1, 2, 3]);
    const rows = [...Array(5).fill([24, 25, 8, 8]), ...Array(3).fill([7, 7, 8, 8])];
    const given = observed(rows, {
      segments: [1, 2, 3, 4, 1, 2].map((cylinder, i) => ({
        cylinder,
        current: i > 1,
        begunBy: i > 3 ? "top-end" : null,
        usableTests: 8,
        ownTests: 4,
      })),
      segment: rows.map((_, t) => segment(t >= 5)),
    });
    const { common, own } = twoParts(given, plainScale, error, none);
    expect(common.renewed.some(Boolean)).toBe(false);
    expect(Math.abs((common.level[5] as number) - (common.level[4] as number))).toBeLessThan(0.5);
    expect(own[0]?.renewed).toEqual([false, false, false, false, false, true, false, false]);
  });
});
