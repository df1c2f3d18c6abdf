import fc from "fast-check";
import { expect, test } from "vitest";
import { plainPreferences, readPreferences } from "@/lib/viewing/preferences.ts";
import { wordsFor } from "@/lib/viewing/sentences.ts";

const abroad = readPreferences("bar_mi_1000_yyyy-mm-dd_point-comma");
const told = (sentence: string, preferences = abroad) =>
  wordsFor(sentence, preferences).replaceAll("\u00a0", " ").replaceAll("\u202f", "_");

test.each([
  [
    "compression 1,010 kPa (last read 969 kPa), minimum 900 kPa",
    "compression 10,10 bar (last read 9,69 bar), minimum 9,00 bar",
  ],
  ["rose from 990 to 1,010 kPa", "rose from 9,90 to 10,10 bar"],
  ["990, 1,000 and 1,010 kPa", "9,90, 10,00 and 10,10 bar"],
  ["1,010 kPa, 120 kPa below", "10,10 bar, 1,20 bar below"],
  ["doubles every 9,000 km", "doubles every 5.600 mi"],
  ["148,600 km ago", "92.336 mi ago"],
  ["rises 3.0 points per 10,000 km", "rises 0,48 points per 1.000 mi"],
  ["rises 3.0 points per 1,000 h", "rises 3,0 points per 1.000 h"],
  ["−12 kPa per 1,000 h", "−0,12 bar per 1.000 h"],
  ["since 9 Nov 2026", "since 2026-11-09"],
  ["likely in Nov 2026", "likely in Nov 2026"],
  ["leakage 17.8 %, plan from 18, limit 28", "leakage 17,8 %, plan from 18, limit 28"],
  // A level never seems on the wrong side of its limit.
  ["946 kPa, minimum 950 kPa", "9,46 bar, minimum 9,50 bar"],
  ["953 kPa, minimum 950 kPa", "9,53 bar, minimum 9,50 bar"],
  // Ordinary wear is slow, and never reads as none.
  ["falls 3 kPa per 10,000 km", "falls 0,005 bar per 1.000 mi"],
  ["falls 0 kPa per 10,000 km", "falls 0 bar per 1.000 mi"],
  ["falls 34 kPa per 10,000 km", "falls 0,055 bar per 1.000 mi"],
  // How far it was is told to the mile; how far at a time, roughly.
  ["30,450 km ago, interval 30,000 km", "18.921 mi ago, interval 18.641 mi"],
  [
    "doubles every 9,000 km, about 9,000 km, over the last 9,000 km",
    "doubles every 5.600 mi, about 5.600 mi, over the last 5.600 mi",
  ],
  // Small figures are figures too, but for cylinders.
  ["use rose from 14 to 610 km a week", "use rose from 9 to 379 mi a week"],
  ["12 and 990 kPa", "0,12 and 9,90 bar"],
  ["cyl 2 and 12, 990 kPa", "cyl 2 and 12, 9,90 bar"],
])("%s", (kept, shown) => expect(told(kept)).toBe(shown));

test("cylinders, years, serial numbers and names in the same sentence stay as they are", () => {
  expect(told("Cylinders 2 and 3, 990 kPa")).toBe("Cylinders 2 and 3, 9,90 bar");
  expect(told("In 2026, 990 kPa; engine QD4-3919, no. 1234.5-7; petrol-4-a")).toBe(
    "In 2026, 9,90 bar; engine QD4-3919, no. 1234.5-7; petrol-4-a",
  );
  expect(told("8 in 10 by cylinder 3")).toBe("8 in 10 by cylinder 3");
});

test("as kept for a viewer who never chose, but that no line ends between figure and unit", () => {
  const sentence = "Cylinder 3: 1,010 kPa after 148,600 km on 9 Nov 2026, 22 % of 1.016 mm";
  expect(told(sentence, plainPreferences)).toBe(sentence);
  expect(wordsFor(sentence, plainPreferences)).toContain("1,010\u00a0kPa after 148,600\u00a0km");
});

test.each([
  ["engine 4.108 in place of 2,000", ["4.108", "2,000"]],
  ["The depot Post 40 km is told of no altitude; 990 kPa", ["Post 40 km"]],
  ["bar 7.5 reads 1.0 points high", ["bar 7.5"]],
  ["5 Jan 2026 was tested on 6 Jan 2026", ["5 Jan 2026"]],
  ["depot Post 40, 20 km away", ["Post 40"]],
  ["Kiln 9 and 990 kPa", ["Kiln 9"]],
  ["1.0 points below tester MF-6 9,000 km", ["tester MF-6 9,000 km"]],
])("names that people typed stand as they are: %s", (sentence, names) => {
  const shown = wordsFor(sentence, abroad, names);
  for (const name of names) expect(shown).toContain(name);
  expect(wordsFor(sentence, abroad)).not.toContain(names[0]);
});

test("a name stays letter by letter whatever it is, and the figures beside it are still told anew", () => {
  const name = fc
    .string({ unit: "grapheme", minLength: 1, maxLength: 12 })
    .filter((text) => !/[\ue000-\uf8ff]/.test(text));
  fc.assert(
    fc.property(name, fc.array(name, { maxLength: 4 }), (one, others) => {
      const shown = wordsFor(`“${one}” rose to 1,010 kPa`, abroad, [one, ...others]);
      expect(shown.startsWith(`“${one}”`)).toBe(true);
    }),
  );
  expect(told("engine 4.108: 1,010 kPa")).toContain("10,10 bar");
});

test.each(["falls 3 kPa per 10,000 km", "falls 9 kPa per 10,000 km", "rises 0.3 points per 10,000 km"])(
  "a rate that is told as it was kept gains no figure: %s",
  (sentence) => expect(told(sentence, plainPreferences)).toBe(sentence),
);

test("psi differ where whole kPa do", () => {
  const psi = readPreferences("psi_km_10000_d-mon-yyyy_comma-point");
  expect(told("949 kPa, minimum 950 kPa", psi)).toBe("137.6 psi, minimum 137.8 psi");
});

test("every sign that a name may hold is taken as it is", () => {
  for (let code = 0x20; code < 0x7f; code++) {
    const name = `A ${String.fromCharCode(code)} 1.5`;
    expect(wordsFor(`${name} at 1,010 kPa`, abroad, [name]).replaceAll("\u00a0", " ")).toBe(`${name} at 10,10 bar`);
  }
});

test("a name that is a figure is told from a reading by the unit behind it, and from a part of a figure", () => {
  expect(wordsFor("engine 1,010: 1,010 kPa", abroad, ["1,010"]).replaceAll("\u00a0", " ")).toBe(
    "engine 1,010: 10,10 bar",
  );
  for (const [sentence, name] of [
    ["use rose from 14 to 610 km a week", "14"],
    ["rose from 990 to 1,010 kPa", "990"],
    ["minimum compression from 900 to 950 kPa", "900"],
    ["read 850, 860 and 870 kPa", "860"],
    ["falls 3 to 4 kPa per 10,000 km", "3"],
  ] as const) {
    expect(wordsFor(sentence, abroad, [name])).toBe(wordsFor(sentence, abroad));
  }
  for (const unit of ["kPa", "%", "km", "mi", "h", "points"]) {
    expect(wordsFor(`1,234.5 ${unit}`, abroad, ["1,234.5"])).toBe(wordsFor(`1,234.5 ${unit}`, abroad));
  }
  expect(wordsFor("2.0 in 12.0 %", abroad, ["2.0"]).replaceAll("\u00a0", " ")).toBe("2.0 in 12,0 %");
});
