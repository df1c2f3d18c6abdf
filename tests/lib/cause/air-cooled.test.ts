import { describe, expect, test } from "vitest";
import { diagnoseEngine } from "@/lib/cause/diagnose.ts";
import { nextSteps, openingCautions, settlingSteps } from "@/lib/cause/next-steps.ts";
import { startingShares } from "@/lib/cause/table.ts";
import { type EngineModel, engineModelSchema } from "@/lib/schema/engine-model.ts";
import { causes } from "@/lib/schema/words.ts";
import { asOf, engine, leakDowns, petrol4 } from "./engines.ts";

const leakDown = { watchPercent: 15, planPercent: 25, limitPercent: 35 };
const mower = engineModelSchema.parse({ id: "air-1", fuel: "petrol", cylinders: 1, cooling: "air", leakDown });
const flat = engineModelSchema.parse({ ...mower, id: "air-flat4", cylinders: 4, layout: "opposed", aircraft: true });

/** All that the pages say of what to do next and of what would settle it, with every result that a test may have. */
function said(model: EngineModel, heard: Parameters<typeof leakDowns>[1] = []): string {
  const rows = [18, 20, 23].map((own) => Array.from({ length: model.cylinders }, (_, i) => (i === 0 ? own : 9)));
  const [diagnosis] = diagnoseEngine(engine({ model, tests: leakDowns(rows, heard) }), { asOf });
  if (diagnosis === undefined) throw new Error("no cylinder 1");
  const steps = nextSteps(diagnosis, { model, band: "watch" });
  const settling = settlingSteps(diagnosis, { model, band: "watch" });
  const results = [...steps, ...settling].flatMap(({ gain }) => gain?.results.map(({ seen }) => seen) ?? []);
  return [
    ...steps.flatMap(({ title, detail }) => [title, detail]),
    ...settling.map(({ title }) => title),
    ...results,
  ].join("\n");
}

describe("what cannot be is not looked for", () => {
  test.each([mower, flat])("$id has no coolant, no next cylinder and no wet test", (model) => {
    for (const heard of [[], ["crankcase"], ["exhaust"]] as const) {
      const words = said(model, heard);
      expect(words).toContain("Leak-down again");
      expect(words).not.toMatch(/coolant|cooling|next cylinder|wet/i);
    }
    expect(openingCautions(model).join(" ")).not.toContain("cooling");
  });

  test("a liquid-cooled engine, or one of which nobody says, with bridges has all of them", () => {
    for (const cooling of ["liquid", undefined] as const) {
      const { cooling: _, ...rest } = petrol4;
      const words = said(cooling === undefined ? rest : { ...rest, cooling });
      expect(words).toMatch(/bubbles in the coolant/);
      expect(words).toMatch(/air heard at the next cylinder/);
      expect(words).toMatch(/Wet compression test/);
    }
    expect(openingCautions(petrol4).join(" ")).toContain("cooling");
  });

  test("no wet test where compression is not judged, whatever cools it", () => {
    const { compression: _, ...model } = petrol4;
    expect(said(model)).not.toMatch(/wet/i);
  });
});

test("before anything is seen, the gasket of an engine without coolant or bridges has only the leak to outside", () => {
  const gasket = (model: Parameters<typeof startingShares>[0]) =>
    startingShares(model)[causes.indexOf("head-gasket")] as number;
  expect(gasket(mower)).toBeLessThan(0.25 * gasket({}));
  expect(gasket({ cooling: "air", neighbours: [[1, 2]] })).toBeLessThan(0.6 * gasket({}));
  expect(gasket({ cooling: "liquid", neighbours: [] })).toBe(gasket({}));
  expect(startingShares(mower).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
  // What a person said of this model stands.
  expect(gasket({ ...mower, causeShares: { shares: { "head-gasket": 0.3 }, reason: "long studs" } })).toBeCloseTo(
    0.3,
    12,
  );
});
