import { describe, expect, it } from "vitest";
import { seededRandom } from "../../../demo-data/random.ts";
import { followsWithin } from "../../../lib/projection/both-together.ts";
import type { WindowMember } from "../../../lib/projection/repair-window.ts";
import { normalCdf } from "../../../lib/statistics/normal.ts";

const ahead = Float64Array.from({ length: 41 }, (_, i) => 2000 * (i / 40) ** 1.5);
/** A use of 1 a day, known exactly: days and use are the same. */
const use = { perDay: 1, logSd: 0, intervals: 5 };
/** Crossing at about `middle` days, normal. */
const crossing = (middle: number, sd: number, classProbability: number): WindowMember => ({
  classProbability,
  distribution: { ahead, probability: ahead.map((a) => (a === 0 ? 0 : normalCdf((a - middle) / sd))) },
});
const span = { spanDays: 500, endDays: 1800, firstIsDue: false };

describe("the chance that the other class follows within a span", () => {
  it("is what drawing the cylinders' crossings gives", () => {
    // Three cylinders, each of the top end with its own chance and else of the bottom end.
    const shares = [0.8, 0.5, 0.2];
    const cylinders = [
      { middle: 700, sd: 250 },
      { middle: 900, sd: 300 },
      { middle: 1100, sd: 350 },
    ];
    const shared = 0.4;
    const reckoned = followsWithin(
      {
        first: cylinders.map(({ middle, sd }, i) => crossing(middle, sd, shares[i] as number)),
        other: cylinders.map(({ middle, sd }, i) => crossing(middle, sd, 1 - (shares[i] as number))),
      },
      shared,
      ahead,
      use,
      span,
    );
    const random = seededRandom(7);
    const normal = () => random.normal(0, 1);
    let due = 0;
    let both = 0;
    for (let draw = 0; draw < 40_000; draw++) {
      const factor = normal();
      const doubt = random.between(0, 1);
      const first = { top: Infinity, bottom: Infinity };
      for (const [i, { middle, sd }] of cylinders.entries()) {
        const at = Math.max(0, middle + sd * (Math.sqrt(shared) * factor + Math.sqrt(1 - shared) * normal()));
        const side = doubt < (shares[i] as number) ? "top" : "bottom";
        first[side] = Math.min(first[side], at);
      }
      if (first.top > span.endDays) continue;
      due++;
      if (first.bottom <= Math.min(span.endDays, first.top + span.spanDays)) both++;
    }
    expect(Math.abs((reckoned ?? 0) - both / due)).toBeLessThan(0.02);
    expect(both / due).toBeGreaterThan(0.2);
  });

  it("is nothing where every cylinder is surely of the one class, and never falls with the span", () => {
    const first = [crossing(600, 200, 1)];
    expect(followsWithin({ first, other: [crossing(600, 200, 0)] }, 0.3, ahead, use, span)).toBe(0);
    const chances = [100, 300, 600, 1200].map((spanDays) =>
      followsWithin({ first, other: [crossing(1200, 200, 1)] }, 0.3, ahead, use, { ...span, spanDays }),
    );
    expect(chances).toEqual(chances.toSorted((a, b) => (a ?? 0) - (b ?? 0)));
    expect(new Set(chances).size).toBe(4);
  });

  it("ends with the horizon or the unit's disposal, and is unknown where the first never comes", () => {
    const members = { first: [crossing(400, 50, 1)], other: [crossing(800, 50, 1)] };
    const until = (endDays: number) => followsWithin(members, 0, ahead, use, { ...span, endDays });
    expect(until(1800)).toBeGreaterThan(0.9);
    expect(until(600)).toBeLessThan(0.01);
    expect(followsWithin({ first: [], other: members.other }, 0, ahead, use, span)).toBeNull();
  });

  it("of a first repair that is due now counts from today, by what may be the other class", () => {
    const now: WindowMember = { classProbability: 0.7, distribution: { ahead, probability: ahead.map(() => 1) } };
    const due = { ...span, firstIsDue: true };
    const other = (middle: number) => [{ ...now, classProbability: 0.3 }, crossing(middle, 50, 1)];
    expect(followsWithin({ first: [now], other: other(300) }, 0, ahead, use, due)).toBeGreaterThan(0.95);
    expect(followsWithin({ first: [now], other: other(900) }, 0, ahead, use, due)).toBeLessThan(0.01);
  });
});
