import { expect, it } from "vitest";
import { planAddress, readPlanAddress, wholePlan } from "@/app/_ui/plan/address.ts";
import { lanesOf } from "@/app/_ui/plan/lanes.ts";

it("reads back what it writes", () => {
  const view = { span: 26, unit: "V 1&2", scope: "both", to: "2026-10-12", split: false } as const;
  const parts = Object.fromEntries(new URL(planAddress(view), "http://host").searchParams);
  expect(readPlanAddress(parts)).toEqual(view);
  expect(planAddress({})).toBe("/plan");
});

it("takes what it does not understand for the whole plan: a week that begins on no Monday, a move of no unit", () => {
  expect(readPlanAddress({ weeks: "27", to: "2026-10-12" })).toEqual(wholePlan);
  expect(readPlanAddress({ unit: "V-1", to: "2026-10-13", scope: "engine" })).toEqual({ ...wholePlan, unit: "V-1" });
  expect(readPlanAddress({ unit: "V\u0000-1", scope: "both" })).toEqual(wholePlan);
  expect(readPlanAddress({ unit: ["V-1", "V-2"], to: "2026-99-99" })).toEqual(wholePlan);
});

it("lays stretches into lanes so that none lies over another, the first free lane first", () => {
  expect(
    lanesOf([
      { from: 0, to: 2 },
      { from: 1, to: 3 },
      { from: 2, to: 4 },
      { from: 2.5, to: 3 },
      { from: 3, to: 5 },
    ]),
  ).toEqual([0, 1, 0, 2, 1]);
});
