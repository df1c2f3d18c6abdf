import fc from "fast-check";
import { expect, test } from "vitest";
import { meterUnits, pressureUnits } from "@/lib/schema/words.ts";
import { fromKpa, meterFactor, toKpa } from "@/lib/units.ts";

const value = fc.double({ min: 1e-6, max: 1e6, noNaN: true });

test("a pressure survives the way there and back, to 1e-12", () => {
  fc.assert(
    fc.property(value, fc.constantFrom(...pressureUnits), (read, unit) => {
      expect(Math.abs(fromKpa(toKpa(read, unit), unit) / read - 1)).toBeLessThan(1e-12);
    }),
  );
});

test("by way of a third unit the pressure is the same", () => {
  const unit = fc.constantFrom(...pressureUnits);
  fc.assert(
    fc.property(value, unit, unit, (read, from, via) => {
      expect(Math.abs(toKpa(fromKpa(toKpa(read, from), via), via) / toKpa(read, from) - 1)).toBeLessThan(1e-12);
    }),
  );
});

test("meter factors are each other's inverse; hours join no distance", () => {
  for (const from of meterUnits) {
    for (const to of meterUnits) {
      const there = meterFactor(from, to);
      if ((from === "h") !== (to === "h")) expect(there).toBeNull();
      else expect((there ?? 0) * (meterFactor(to, from) ?? 0)).toBeCloseTo(1, 14);
    }
  }
});
