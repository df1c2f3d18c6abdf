import { expect, it } from "vitest";
import { leftOutOf, leftOutSentences } from "../../../lib/budget/left-out.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { inputUnit, petrol } from "./inputs.ts";

const { repairs: _, ...priceless } = petrol;
const units = [
  inputUnit("E", { model: { ...priceless, id: "flat4" } }),
  inputUnit("A"),
  inputUnit("B", { depot: null }),
  inputUnit("C", { pastLimit: [] }),
  inputUnit("D", { status: "retired" }),
];
const outlooks = units.map(({ outlook }) => outlook);

it("names the units of which a budget holds nothing, and why; retired ones need none", () => {
  expect(leftOutOf(outlooks, workshopSchema.parse({}), "2026-07-06")).toEqual([
    { unit: "B", engineModel: "petrol-4-a", why: "no-depot" },
    { unit: "C", engineModel: "petrol-4-a", why: "too-few-tests" },
    { unit: "E", engineModel: "flat4", why: "no-costs" },
  ]);
});

it("says what to do about each reason", () => {
  const told = leftOutSentences(leftOutOf(outlooks, workshopSchema.parse({}), "2026-07-06"));
  expect(told).toHaveLength(3);
  expect(told.at(-1)).toBe(
    "E is not in the budget: no hours and parts of a repair are told of flat4. Give them on the page of the engine model, or in the file of models. What it costs comes on top.",
  );
  expect(leftOutSentences([])).toEqual([]);
});

it("counts names beyond a dozen", () => {
  const many = Array.from({ length: 20 }, (_, i) => ({ unit: `U${i}`, engineModel: "m", why: "no-costs" as const }));
  expect(leftOutSentences(many)[0]).toMatch(/U11 and 8 more are not in the budget: .* What they cost comes on top\.$/);
});
