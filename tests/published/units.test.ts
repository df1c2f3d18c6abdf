/**
 * Unit factors: NIST SP 811 (2008), appendix B; exact by definition (pound 0.45359237 kg, standard gravity 9.80665 m/s2,
 * inch 25.4 mm, mile 1609.344 m), the table's cases recomputed with exact rationals to 13 digits. Cases in inches of
 * mercury are in the data but not in the app, which reads no such unit. Tolerance 1e-12 relative: the digits given.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { pressureUnits } from "@/lib/schema/words.ts";
import { fromKpa, gaugeKpa, meterFactor, toKpa } from "@/lib/units.ts";

interface Published {
  to_Pa: Record<string, string>;
  cases: { value: number; from: string; to: string; expect: number }[];
}
const published = JSON.parse(readFileSync(new URL("./data/a_units.json", import.meta.url), "utf8")) as Published;
const pressureUnit = (name: string) => pressureUnits.find((unit) => unit === name);
const within = (actual: number, wanted: number, relative: number) =>
  expect(Math.abs(actual - wanted)).toBeLessThanOrEqual(relative * Math.abs(wanted));

test.each(pressureUnits)("1 %s in Pa", (unit) => {
  within(toKpa(1, unit) * 1000, Number(published.to_Pa[unit]), 1e-14);
});

const cases = published.cases.flatMap((c) => {
  const [from, to] = [pressureUnit(c.from), pressureUnit(c.to)];
  return from === undefined || to === undefined ? [] : [{ ...c, from, to }];
});

test("eleven of the twelve cases are in the app's units", () => expect(cases).toHaveLength(11));

test.each(cases)("$value $from in $to", ({ value, from, to, expect: wanted }) => {
  within(fromKpa(toKpa(value, from), to), wanted, 1e-12);
});

test("psi printed to seven digits", () => expect(toKpa(1, "psi") * 1000).toBeCloseTo(6894.757, 3));

test("a mile is 1.609344 km", () => {
  expect(meterFactor("mi", "km")).toBe(1.609344);
  expect(fromKpa(gaugeKpa(100), "bar")).toBe(1);
});
