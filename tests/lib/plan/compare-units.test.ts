import { expect, it } from "vitest";
import { aloneWords } from "../../../app/_ui/plan/compared-words.ts";
import { compareUnits } from "../../../lib/plan/compare-plans.ts";

it("sets units against each other that both plans reckon with, and names those in one alone with the reason", () => {
  const compared = compareUnits(
    { leftOut: [{ unit: "B", why: "no-costs" }], costByUnit: { A: 400, C: 70 } },
    { leftOut: [], costByUnit: { A: 460, B: 9_000 } },
  );
  expect(compared.both).toEqual({ units: 1, before: 400, after: 460 });
  expect(compared.alone).toEqual({ before: 70, after: 9_000 });
  const says = aloneWords(compared);
  expect(says).toContain("Only before: C (the other plan has no such unit).");
  expect(says).toMatch(/Only after: B \(in the other plan, its engine model tells no costs/);
});
