/**
 * Standard atmosphere: ISO 2533:1975 and US Standard Atmosphere 1976 (equal below 11 km), 14 heights, recomputed with 30
 * digits; 5,000 and 10,000 ft agree with the printed table to 4 digits. Column "geopotential": the altitude is the
 * standard's own argument, as in the app. Tolerance 1e-8: the digits given.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { standardPressureKpa } from "@/lib/sealing/atmosphere.ts";

const rows = readFileSync(new URL("./data/b_atmosphere.csv", import.meta.url), "utf8")
  .trim()
  .split("\n")
  .slice(1);

test.each(rows.map((row) => row.split(",")))("%s", (_label, altitudeM, geopotentialPa, geometricPa) => {
  const pressurePa = standardPressureKpa(Number(altitudeM)) * 1000;
  expect(Math.abs(pressurePa / Number(geopotentialPa) - 1)).toBeLessThan(1e-8);
  expect(Math.abs(pressurePa / Number(geometricPa) - 1)).toBeLessThan(2e-4);
});

test("top of the layer: 226.32 hPa at 11 km (ISO 2533, printed)", () => {
  expect(standardPressureKpa(11_000)).toBeCloseTo(22.632, 3);
});
