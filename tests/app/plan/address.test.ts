import { expect, it } from "vitest";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { planAddress, readPlanAddress, understoodOfPlan, wholePlan } from "@/app/_ui/plan/address.ts";
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

it("says in one sentence what of an address is not understood, and nothing of what is", () => {
  const says = (parts: AddressParts) =>
    notUnderstoodWords(parts, understoodOfPlan(parts), "the plan is shown as without it");
  expect(says({})).toBeNull();
  expect(says({ weeks: "104", unit: "V 1&2", scope: "both", to: "2026-10-12", split: "yes" })).toBeNull();
  expect(says({ weeks: "27" })).toBe(
    "Of this page’s address “weeks=27” is not understood: the plan is shown as without it.",
  );
  expect(says({ to: "2026-10-12", constructor: "1" })).toContain("“to=2026-10-12” and “constructor=1” are");
  expect(says({ unit: "V-1", to: "2026-10-13", scope: "engine" })).toContain("“to=2026-10-13” and “scope=engine” are");
  expect(says({ weeks: ["26", "52"] })).toContain("“weeks=26” and “weeks=52”");
  expect(says({ unit: "V\u0000" })).toContain("“unit=V\ufffd”");
  expect(says({ weeks: "9".repeat(500) })?.length).toBeLessThan(200);
  expect(says(Object.fromEntries(Array.from({ length: 9 }, (_, i) => [`x${i}`, "1"])))).toContain("and 5 more are");
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
