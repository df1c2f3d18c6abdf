import { expect, it } from "vitest";
import { bothWords } from "@/app/_ui/unit/both-words.ts";
import type { UnitAssessment } from "@/lib/schema/assessment.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { diesel } from "./fixture.ts";

const { assessment } = diesel;
const { topEnd } = assessment.repairs;
const crossed = { ...topEnd, status: "crossed" } as const;
const say = (more: Partial<UnitAssessment>) =>
  bothWords({ ...assessment, ...more }, formatsOf(plainPreferences))?.replaceAll("\u00a0", " ");
const bothTogether = { first: "topEnd", months: 18, probability: 0.4807 } as const;

it("tells the chance of the second class of repair, whichever comes first, and however small it is", () => {
  expect(say({ bothTogether })).toBe(
    "Both together: once the top-end repair is due, the chance that a bottom-end one falls due within 18 months is 48 %.",
  );
  expect(say({ bothTogether: { first: "bottomEnd", months: 1, probability: 0 } })).toBe(
    "Both together: once the bottom-end repair is due, the chance that a top-end one falls due within 1 month is under 1 %.",
  );
});

it("where a second fault is told, says that it is not what falls due", () => {
  const [cylinder] = assessment.cylinders;
  if (cylinder === undefined) throw new Error("no cylinder");
  const together = {
    causes: ["rings-or-bore", "exhaust-valve"] as ["rings-or-bore", "exhaust-valve"],
    probability: 0.65,
  };
  const cylinders = [{ ...cylinder, together }];
  expect(say({ bothTogether: { first: "topEnd", months: 18, probability: 0.004 }, cylinders })).toBe(
    "Both together: once the top-end repair is due, the chance that a bottom-end one falls due within 18 months is under 1 %; a second fault that is there but small makes none due.",
  );
});

it("of what is due now it says so", () => {
  const { bottomEnd } = assessment.repairs;
  expect(say({ bothTogether, repairs: { topEnd: crossed, bottomEnd } })).toMatch(
    /^Both together: now that the top-end/,
  );
  expect(say({ bothTogether, repairs: { topEnd: crossed, bottomEnd: crossed } })).toBe(
    "Both together: both classes of repair are due now.",
  );
});

it("says nothing where nothing tells", () => expect(say({ bothTogether: null })).toBeUndefined());
