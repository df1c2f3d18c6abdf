import { describe, expect, test } from "vitest";
import { courseDrawing } from "@/app/_ui/unit/course-drawing.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import * as fixtures from "./fixture.ts";

const report = Object.values(fixtures).find(
  (value): value is UnitReport =>
    typeof value === "object" && "assessment" in value && value.assessment.unit === "L-203",
);
if (report === undefined) throw new Error("no report of L-203 among the fixtures");
const chart = (measure: "leak-down" | "compression-dry") => {
  const found = report.charts.find((c) => c.measure === measure);
  if (found === undefined) throw new Error(`no chart of ${measure}`);
  return found;
};
const leak = courseDrawing(report, chart("leak-down"), 3);

describe("the chart that the server draws", () => {
  test("the chosen cylinder is drawn last, and every reading lies in the box", () => {
    expect(leak.lines.map((line) => line.cylinder)).toEqual([1, 2, 4, 3]);
    expect(leak.lines.at(-1)?.chosen).toBe(true);
    for (const { points } of leak.lines) {
      for (const { x, y } of points) {
        expect(x >= 0 && x <= 100).toBe(true);
        expect(y >= 0 && y <= 100).toBe(true);
      }
    }
  });

  test("lines are broken at a repair and leave out readings that are not used", () => {
    const [one] = leak.lines;
    const used = chart("leak-down").cylinders[0]?.points.filter((p) => p.weight > 0) ?? [];
    expect(one?.path.match(/M/g)).toHaveLength(new Set(used.map((p) => p.life)).size);
    expect(one?.path.match(/[ML]/g)).toHaveLength(used.length);
    expect(one?.points.filter((p) => !p.used).length).toBe((one?.points.length ?? 0) - used.length);
  });

  test("leakage stands on 0 with its limits above, the wash beyond the limit", () => {
    expect(leak.y.find((tick) => tick.value === 0)?.at).toBe(100);
    const limit = leak.limits.find((line) => line.kind === "limit");
    expect(limit?.value).toBe(28);
    expect(leak.wash).toEqual({ y: 0, height: limit?.y });
    const compression = courseDrawing(report, chart("compression-dry"), 3);
    const minimum = compression.limits.find((line) => line.kind === "limit");
    expect(minimum?.value).toBe(2300);
    expect(compression.wash?.y).toBe(minimum?.y);
  });

  test("repairs at one place share a mark, and an adjustment has none", () => {
    const mark = (scope: "complete" | "engine-swap" | "adjustment", x: number) =>
      ({ ...report.repairs[0], scope, x }) as UnitReport["repairs"][number];
    const x = chart("leak-down").cylinders[0]?.points[1]?.x ?? 0;
    const repairs = [mark("complete", x), mark("engine-swap", x), mark("adjustment", x)];
    const { marks } = courseDrawing({ ...report, repairs }, chart("leak-down"), null);
    expect(marks.map(({ letter }) => letter)).toEqual(["C S"]);
  });

  test("the likely course begins today; without a chosen cylinder there is none", () => {
    expect(leak.fan?.likely.startsWith(`M${leak.today} `)).toBe(true);
    expect(courseDrawing(report, chart("leak-down"), null).fan).toBeNull();
    expect(leak.today).toBeLessThan(85);
    expect(courseDrawing(report, chart("leak-down"), null).today).toBeGreaterThan(95);
  });
});

test("has ticks that are round in the units shown, and room for the range ahead", () => {
  const milesPerKm = 0.621371;
  const { x } = courseDrawing(report, chart("leak-down"), null, { meter: milesPerKm, level: 1 });
  expect(x.length).toBeGreaterThan(1);
  for (const { value } of x) expect(Math.abs((value * milesPerKm) % 1000)).toBeCloseTo(0, 6);
  const top = (chosen: number | null) =>
    Math.max(...courseDrawing(report, chart("leak-down"), chosen).y.map(({ value }) => value));
  expect(top(3)).toBeGreaterThanOrEqual(top(null));
});
