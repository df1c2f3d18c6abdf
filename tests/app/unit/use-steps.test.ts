import { describe, expect, test } from "vitest";
import { drawingOfUse } from "@/app/_ui/unit/use-steps.ts";
import type { UseCourse } from "@/lib/schema/report.ts";

const asOf = "2026-06-30";
const use: UseCourse = {
  spans: [
    { from: "2024-06-30", to: "2025-06-30", used: 7_300 },
    { from: "2025-06-30", to: "2026-03-31", used: 0 },
    { from: "2026-03-31", to: "2026-06-30", used: 3_640 },
  ],
  resets: [{ date: "2025-06-30", before: 90_000, after: 10 }],
  ahead: { p10: 10, p50: 20, p90: 50 },
  aheadIsPooled: false,
  notes: [],
};
const drawing = drawingOfUse(use, asOf, 1);

describe("use over time as steps", () => {
  test("each span is a step of its use a week, side by side from the first reading to today", () => {
    expect(drawing?.steps.map((s) => Math.round(s.perWeek))).toEqual([140, 0, 280]);
    expect(drawing?.steps.map((s) => s.standing)).toEqual([false, true, false]);
    const [first, second, third] = drawing?.steps ?? [];
    expect(first?.left).toBe(0);
    expect(second?.left).toBeCloseTo(first?.width ?? -1, 9);
    expect((third?.left ?? 0) + (third?.width ?? 0)).toBeCloseTo(drawing?.today ?? -1, 9);
    expect(drawing?.today).toBeCloseTo((100 * 730) / 1095, 1);
    expect(drawing?.resets.map((r) => r.at)).toEqual([second?.left]);
  });

  test("bars stand on 0, and the axis reaches over the highest of use and forecast", () => {
    expect(drawing?.ahead).toEqual({ p10: 70, p50: 140, p90: 350 });
    expect(drawing?.ticks).toEqual([0, 200, 400]);
  });

  test("ticks are round in the unit that is shown", () => {
    const miles = drawingOfUse(use, asOf, 0.621371);
    const shown = miles?.ticks.map((tick) => Number((tick * 0.621371).toFixed(6)));
    expect(shown).toEqual([0, 100, 200, 300]);
  });

  test("years are marked, but not under the word for today", () => {
    expect(drawing?.years.map((y) => y.year)).toEqual(["2025", "2026", "2027"]);
    const atNewYear = drawingOfUse(use, "2026-12-31", 1);
    expect(atNewYear?.years.map((y) => y.year)).toEqual(["2025", "2026"]);
  });

  test("out of service nothing lies ahead; with no span there is nothing to draw", () => {
    expect(drawingOfUse({ ...use, ahead: null }, asOf, 1)?.ahead).toBeNull();
    expect(drawingOfUse({ ...use, spans: [] }, asOf, 1)).toBeNull();
  });
});
