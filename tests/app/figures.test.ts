import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { decimalSignOf, figureOf, figureProblem } from "@/app/_ui/figures.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { numberChoices, plainPreferences } from "@/lib/viewing/preferences.ts";

describe("a figure as it was typed", () => {
  it.each([
    ["", null],
    ["  ", null],
    [" 5,5 ", 5.5],
    ["5.5", 5.5],
    ["30000", 30_000],
    ["30 000", 30_000],
    ["30\u202f000,5", 30_000.5],
    ["1,234,567", 1_234_567],
    ["1.234.567", 1_234_567],
    ["1,234.5", 1234.5],
    ["1.234,5", 1234.5],
    ["0,500", 0.5],
    ["0.125", 0.125],
    ["1.016", 1.016],
    ["1234.567", 1234.567],
    ["12,3456", 12.3456],
    ["-415", -415],
    ["−415,5", -415.5],
    ["+3", 3],
    ["1e-7", 1e-7],
    ["12.", 12],
    [".5", 0.5],
  ])("%j is %j", (text, figure) => {
    expect(figureOf(text)).toBe(figure);
    expect(figureProblem(text)).toBeNull();
  });

  it.each(["two", "5 5", "1,23,456", "1.2.3", "1,234,56", "12 km", "--1", "0x10", "Infinity", "1,2.3"])(
    "%j is none, and nothing is guessed",
    (text) => {
      expect(figureOf(text)).toBeNaN();
      expect(figureProblem(text)).toBeNull();
    },
  );

  it.each([
    ["30,000", "30000 or as 30"],
    ["1,400", "1400 or as 1.4"],
    ["1.400", "1400 or as 1.4"],
    ["2,235", "2235 or as 2.235"],
    ["-1,850", "-1850 or as -1.85"],
  ])("%j has two readings, and both are told", (text, both) => {
    expect(figureOf(text)).toBeNaN();
    expect(figureProblem(text)).toContain(`“${text}” may be read as ${both}`);
  });

  it.each([
    ["1,235", 1.235],
    ["12,345", 12.345],
    ["1.234,5", 1234.5],
    ["0.5", 0.5],
    ["1.5", 1.5],
  ])("%j is %j to who writes decimals with a comma", (text, figure) => {
    expect(figureOf(text, ",")).toBe(figure);
    expect(figureProblem(text, ",")).toBeNull();
  });

  it.each([
    ["1.235", "1235 or as 1,235"],
    ["30.000", "30000 or as 30"],
    ["1,400", "1400 or as 1,4"],
    ["-2.240", "-2240 or as -2,24"],
  ])("%j has two readings to who writes decimals with a comma, and what is proposed is taken", (text, both) => {
    expect(figureOf(text, ",")).toBeNaN();
    expect(figureProblem(text, ",")).toContain(`may be read as ${both}`);
    for (const proposed of both.split(" or as ")) expect(figureOf(proposed, ",")).not.toBeNaN();
  });

  test("a figure that a viewer's pages print is never read as another one", () => {
    for (const numbers of numberChoices) {
      const f = formatsOf({ ...plainPreferences, numbers });
      fc.assert(
        fc.property(fc.integer({ min: -2_000_000, max: 2_000_000 }), (value) => {
          const read = figureOf(f.number(value), decimalSignOf(numbers));
          expect(Number.isNaN(read) || read === value).toBe(true);
        }),
      );
    }
  });

  test("whatever a form prints into its field is read back as it was", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.double({ noNaN: true, noDefaultInfinity: true }),
          fc.integer({ min: -2_000_000, max: 2_000_000 }).map((thousandths) => thousandths / 1000),
        ),
        (value) => {
          // -0 is printed as 0.
          expect(figureOf(String(value))).toBe(value === 0 ? 0 : value);
        },
      ),
    );
  });

  test("a figure is never read as another one: what is taken is one of the two usual readings", () => {
    const typed = fc.stringMatching(/^[0-9.,]{1,9}$/);
    fc.assert(
      fc.property(typed, (text) => {
        const figure = figureOf(text);
        if (figure === null || Number.isNaN(figure)) return;
        const readings = [text.replaceAll(",", ""), text.replaceAll(".", "").replace(",", ".")].map(Number);
        expect(readings).toContain(figure);
      }),
    );
  });
});
