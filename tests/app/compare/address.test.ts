import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AddressParts, compareAddress, readCompareAddress } from "../../../app/_ui/compare/address.ts";
import { chooseModel } from "../../../app/_ui/compare/choose-model.ts";
import { ratesAddress, readRatesAddress } from "../../../app/_ui/compare/rate-words.ts";
import { figures, origins } from "../../../lib/schema/comparison.ts";
import { judgedMeasures, meterUnits } from "../../../lib/schema/words.ts";
import { course } from "../../lib/comparison/made-up-courses.ts";

function partsOf(address: string): AddressParts {
  const query = new URL(address, "http://localhost").searchParams;
  return Object.fromEntries([...new Set(query.keys())].map((name) => [name, query.getAll(name)]));
}

describe("the Compare page's address", () => {
  test("a plain view has a plain address", () => expect(compareAddress(readCompareAddress({}))).toBe("/compare"));

  test("what was asked for is read back, whatever it is", () => {
    const name = fc.oneof(
      fc.stringMatching(/^[A-Za-z0-9ü/&+:,;-]([ A-Za-z0-9ü/&+:,;-]{0,190}[A-Za-z0-9])?$/),
      fc.constantFrom("six km", "km:six", ":six", "h:", "V-1, V-2"),
    );
    const view = fc.record({
      model: name,
      meterUnit: fc.constantFrom(null, ...meterUnits),
      measure: fc.constantFrom(...judgedMeasures),
      since: fc.constantFrom(...origins),
      of: fc.constantFrom(...figures),
      units: fc.uniqueArray(name, { maxLength: 8 }),
      cylinders: fc.uniqueArray(fc.integer({ min: 1, max: 16 }), { maxLength: 16 }).map((c) => c.sort((a, b) => a - b)),
    });
    fc.assert(
      fc.property(view, (asked) => {
        expect(readCompareAddress(partsOf(compareAddress(asked)))).toEqual(asked);
      }),
    );
  });

  test("what it does not understand counts as not asked for", () => {
    const read = readCompareAddress({
      since: "ever",
      of: "best",
      measure: "x",
      cylinder: ["0", "a", "2.5", "3"],
      unit: ["V-1, V-2", " V-3", "V-3"],
      model: "petrol 4 a",
    });
    expect(read).toMatchObject({
      since: "new",
      of: "weakest",
      measure: "leak-down",
      cylinders: [3],
      units: ["V-1, V-2", "V-3"],
    });
    expect([read.model, read.meterUnit]).toEqual(["petrol 4 a", null]);
    expect(readCompareAddress({ unit: Array.from({ length: 30 }, (_, i) => `U-${i}`) }).units).toHaveLength(8);
  });

  test("rates are read back as well", () => {
    for (const measure of judgedMeasures) {
      for (const of of ["weakest", "middle"] as const) {
        const parts = Object.fromEntries(new URL(ratesAddress({ measure, of }), "http://localhost").searchParams);
        expect(readRatesAddress(parts)).toEqual({ measure, of });
      }
    }
  });
});

describe("the model shown", () => {
  const model = (engineModel: string, units: number, meterUnit: "h" | "km" = "h") =>
    ({ engineModel, meterUnit, measure: "leak-down", modelName: engineModel, units, standingOut: [] }) as const;
  const models = [model("small", 2), model("large", 9), model("both", 3, "km"), model("both", 4)];
  const choose = (parts: AddressParts, chosen = [] as ReturnType<typeof course>[]) =>
    chooseModel(models, readCompareAddress(parts), chosen);

  test("is that asked for, with its meter unit; then that of the first unit; then the largest", () => {
    expect(choose({ model: "km:both" })).toMatchObject({ units: 3 });
    expect(choose({ model: "both" })).toMatchObject({ units: 4 });
    expect(choose({}, [course("U", [], { engineModel: "small" })])).toMatchObject({ engineModel: "small" });
    expect(choose({})).toMatchObject({ engineModel: "large" });
    expect(choose({ model: "none" })).toMatchObject({ engineModel: "large" });
  });

  test("is none where nothing was compared", () => expect(chooseModel([], readCompareAddress({}), [])).toBeNull());
});
