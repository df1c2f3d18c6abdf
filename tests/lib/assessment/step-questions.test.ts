import { describe, expect, test } from "vitest";
import { mergedBores } from "@/lib/condition/told-bores.ts";
import { unitFact } from "../sealing/facts.ts";
import { assessedUnit, halfYearly, leakDown, worn } from "./made-up-fleet.ts";

const blank = (unit: string) => [
  ...halfYearly(worn(6, 16, 0.8), { unit, instrument: "T-1", orificeMm: 1.016 }).slice(0, 5),
  leakDown("2026-06-01", 100_000, Array(4).fill(5), { unit, instrument: "T-2" }),
];
const questions = (told: readonly (readonly [unit: string, orificeMm: number])[]) => {
  const units = ["V-101", ...told.map(([unit]) => unit)].map((unit) => unitFact({ unit }));
  const others = told.flatMap(([unit, orificeMm]) =>
    halfYearly(worn(4, 4, 0.2), { unit, instrument: "T-2", orificeMm }),
  );
  return assessedUnit({ units, tests: [...blank("V-101"), ...others] }).assessment.questions.join();
};

describe("a step that came with a tester of which nobody tells the restrictor", () => {
  test("asks whether it was another restrictor, with what other units' tests tell of it", () => {
    expect(questions([["V-102", 1.524]])).toMatch(
      /Was it T-2 with another restrictor\? At V-102 it was told as 1\.524 mm; if so here too, 5 % is (19|2[0-3]) % on the model's usual tester\. Enter the restrictor to settle it\.$/,
    );
  });

  test("without their word, or with two of them, only whether", () => {
    expect(questions([])).toMatch(/Was it T-2 with another restrictor\?$/);
    expect(
      questions([
        ["V-102", 1.524],
        ["V-103", 1.2],
      ]),
    ).toMatch(/Was it T-2 with another restrictor\?$/);
  });
});

test("of each tester and restrictor three units are kept, each once", () => {
  const of = (unit: string, orificeMm = 1.5) => ({ instrument: "T-2", orificeMm, unit });
  expect(mergedBores(["V-4", "V-1", "V-3", "V-1", "V-2"].map((unit) => of(unit)))).toEqual(
    ["V-1", "V-2", "V-3"].map((unit) => of(unit)),
  );
  expect(mergedBores([of("V-1"), of("V-1", 1)])).toHaveLength(2);
});
