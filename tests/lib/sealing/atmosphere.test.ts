import fc from "fast-check";
import { expect, test } from "vitest";
import { standardPressureKpa } from "@/lib/sealing/atmosphere.ts";

test("sea level is the standard's own pressure", () => expect(standardPressureKpa(0)).toBe(101.325));

test("pressure falls with altitude", () => {
  const altitude = fc.double({ min: -500, max: 10_999, noNaN: true });
  fc.assert(
    fc.property(altitude, (low) => {
      expect(standardPressureKpa(low + 1)).toBeLessThan(standardPressureKpa(low));
    }),
  );
});

test.each([-500.1, 11_000.1, Number.NaN])("%f m is out of the layer", (altitudeM) => {
  expect(() => standardPressureKpa(altitudeM)).toThrow(RangeError);
});
