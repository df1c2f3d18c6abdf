import { describe, expect, it } from "vitest";
import type { Choice } from "@/app/_ui/unit/choice.ts";
import { trendSource } from "@/app/_ui/unit/trend-source.ts";
import { trendStops } from "@/app/_ui/unit/trend-stops.ts";
import { diesel } from "./fixture.ts";

const choice: Omit<Choice, "allTests"> = { measure: "leak-down", cylinder: 3, values: "referred" };
const stops = trendStops(trendSource(diesel, choice), [0, 200_000], [0, 36]);

describe("the tests of a chart", () => {
  it("are each told once, with what every cylinder read", () => {
    expect(stops.map((s) => s.date)).toHaveLength(11);
    expect(stops.at(-1)).toMatchObject({
      x: 148_300,
      date: "2026-08-24",
      y: 22,
      sd: 1.6,
      doubts: [],
      readings: [
        { cylinder: 1, value: 8, counts: true },
        { cylinder: 2, value: 11, counts: true },
        { cylinder: 3, value: 22, counts: true },
        { cylinder: 4, value: 8, counts: true },
      ],
    });
  });

  it("say why readings count less, and for which cylinders", () => {
    expect(stops.filter((s) => s.doubts.length > 0)).toMatchObject([
      {
        date: "2025-07-28",
        doubts: [{ words: "not used: engine cold: all four up 6 points", cylinders: [1, 2, 3, 4] }],
      },
    ]);
  });

  it("are those in view alone", () => {
    const some = trendStops(trendSource(diesel, choice), [130_000, 143_000], [0, 36]);
    expect(some.map((s) => s.x)).toEqual([130_300, 136_100, 142_000]);
  });

  it("keep two of one day and place apart", () => {
    const twice = {
      ...diesel,
      charts: diesel.charts.map((chart) => ({
        ...chart,
        cylinders: chart.cylinders.map((c) => ({ ...c, points: [...c.points, ...c.points.slice(-1)] })),
      })),
    };
    const both = trendStops(trendSource(twice, choice), [0, 200_000], [0, 36]).filter((s) => s.x === 148_300);
    expect(both.map((s) => s.readings.length)).toEqual([4, 4]);
    expect(new Set(both.map((s) => s.key)).size).toBe(2);
  });

  it("hold a reading beyond the axis just inside it", () => {
    const low = trendStops(trendSource(diesel, choice), [148_000, 149_000], [0, 20]);
    expect(low[0]?.y).toBeLessThan(20);
    expect(low[0]?.readings[2]?.value).toBe(22);
  });

  it("tell a wet compression beside the dry ones, of the chosen cylinder, and not among raw values", () => {
    const dry: Omit<Choice, "allTests"> = { measure: "compression-dry", cylinder: 3, values: "referred" };
    const wet = (of: Omit<Choice, "allTests">) =>
      trendStops(trendSource(diesel, of), [0, 200_000], [2000, 3000]).filter((s) => s.wet);
    const wetTests = diesel.tests.filter((t) => t.measure === "compression-wet");
    expect(wet(dry)).toHaveLength(wetTests.length);
    expect(wet(dry)[0]).toMatchObject({ date: "2026-07-02", readings: [{ cylinder: 3, value: 2790, counts: false }] });
    expect(wet({ ...dry, cylinder: 1 })).toEqual([]);
    expect(wet({ ...dry, values: "raw" })).toEqual([]);
  });
});
