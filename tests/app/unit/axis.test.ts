import { describe, expect, it } from "vitest";
import { clearTicks, dateAtX, dateTicks, roundStep, roundTicks, xAtDate } from "@/app/_ui/unit/axis.ts";

const pairs = [
  { x: 0, date: "2024-01-01" },
  { x: 3660, date: "2025-01-01" },
  { x: 3660, date: "2025-06-01" },
  { x: 7310, date: "2026-06-01" },
];

describe("ticks", () => {
  it("stand on round steps", () => {
    expect([7, 12, 36, 120, 0.3].map((span) => roundStep(span, 5))).toEqual([2, 5, 10, 25, 0.1]);
    expect(roundTicks([860, 1320], 5)).toEqual([900, 1000, 1100, 1200, 1300]);
    expect(roundTicks([0.05, 0.35], 3)).toEqual([0.1, 0.2, 0.3]);
  });

  it("give way to limits", () => {
    expect(clearTicks([0, 36], [0, 28], [10, 20, 30, 40], 0.07)).toEqual([0, 10, 20, 28]);
  });
});

describe("dates along the meter", () => {
  it("run straight between known pairs", () => {
    expect(xAtDate(pairs, "2024-07-01")).toBeCloseTo(1820, 6);
    expect(dateAtX(pairs, 1820)).toBe("2024-07-01");
  });

  it("stand still while the unit does", () => {
    expect(xAtDate(pairs, "2025-03-01")).toBe(3660);
  });

  it("are unknown outside the pairs, where the nearest date holds", () => {
    expect(xAtDate(pairs, "2023-12-31")).toBeNull();
    expect(dateAtX(pairs, -5)).toBe("2024-01-01");
    expect(dateAtX(pairs, 9999)).toBe("2026-06-01");
    expect(dateAtX([], 1)).toBeNull();
  });

  it("are marked by years, and by quarters on a short axis", () => {
    expect(dateTicks(pairs, [0, 7310]).map((d) => d.date)).toEqual(["2024-01-01", "2025-01-01", "2026-01-01"]);
    expect(dateTicks(pairs, [3700, 7310]).map((d) => d.date)).toEqual([
      "2025-07-01",
      "2025-10-01",
      "2026-01-01",
      "2026-04-01",
    ]);
    expect(dateTicks([], [0, 10])).toEqual([]);
  });
});
