import { describe, expect, it } from "vitest";
import type { CellCorrection } from "@/lib/schema/reading.ts";
import { csvOf, goodRow, readText } from "./read-text.ts";

const at = (line: number | null, column: string, was: string, value: string): CellCorrection => ({
  line,
  column,
  was,
  value,
});
const rows = csvOf([
  goodRow,
  { ...goodRow, cylinder: "2", meter: "04180.0" },
  { ...goodRow, cylinder: "3", unit: "v 1" },
]);

describe("a corrected cell", () => {
  it("is read as if it held what it should, however the file writes what it holds", async () => {
    const corrections = [at(2, "Meter", "4180", "4810"), at(3, "meter", "4180", "4810"), at(2, "value_unit", "%", "%")];
    const { tests, issues } = await readText(rows, { corrections });
    expect(issues).toEqual([]);
    expect(tests.map((test) => [test.unit, test.meter, test.readings.length])).toEqual([
      ["V-1", 4810, 2],
      ["v 1", 4180, 1],
    ]);
  });

  it("is known by its beginning where an issue tells no more of it", async () => {
    const long = `  ${"x".repeat(600)}`;
    const file = csvOf([goodRow, { ...goodRow, cylinder: "2", value: long }]);
    const [issue] = (await readText(file)).issues;
    expect(issue?.value?.length).toBeLessThan(500);
    const told = issue?.value ?? "";
    const { tests, issues } = await readText(file, { corrections: [at(3, "value", told, "12")] });
    expect(issues).toEqual([]);
    expect(tests.flatMap((test) => test.readings)).toHaveLength(2);
    // Of another beginning it is another cell.
    const other = [at(3, "value", told.replace("x", "y"), "12")];
    expect((await readText(file, { corrections: other })).issues).toHaveLength(1);
  });

  it("is left as it is where it holds something else", async () => {
    const corrections = [at(2, "meter", "9999", "1"), at(7, "meter", "4180", "1")];
    expect((await readText(rows, { corrections })).tests).toEqual((await readText(rows)).tests);
  });

  it("may be every cell of a column that holds the same", async () => {
    const { tests } = await readText(rows, { corrections: [at(null, "unit", "v 1", "V-1")] });
    expect(new Set(tests.map((test) => test.unit))).toEqual(new Set(["V-1"]));
  });

  it("is of one unit alone, however like it another is written", async () => {
    const others = ["104", "104T", "104 B", "0104"].map((unit, i) => ({
      ...goodRow,
      unit,
      cylinder: `${(i % 4) + 1}`,
    }));
    const { tests } = await readText(csvOf(others), { corrections: [at(null, "unit", "104", "V-1")] });
    expect(tests.map((test) => [test.unit, test.readings.length]).toSorted()).toEqual([
      ["0104", 1],
      ["104 B", 1],
      ["104T", 1],
      ["V-1", 1],
    ]);
  });

  it("is a day with its time, but not a longer word", async () => {
    const dated = csvOf([{ ...goodRow, test_date: `${goodRow.test_date} 10:30` }]);
    const { tests } = await readText(dated, { corrections: [at(2, "test_date", goodRow.test_date, "2026-01-31")] });
    expect(tests.map((test) => test.date)).toEqual(["2026-01-31"]);
  });

  it("may stand in a column that the file lacks", async () => {
    const meters = "unit,reading_date,meter\nV-1,2026-01-01,5\nV-1,2026-02-01,3\n";
    const { meterReadings, issues } = await readText(meters, { corrections: [at(3, "meter_reset", "", "yes")] });
    expect(issues).toEqual([]);
    expect(meterReadings.map((reading) => reading.meterReset)).toEqual([false, true]);
  });

  it("does not make a row with too many cells a good one", async () => {
    const meters = "unit,reading_date,meter\nV-1,2026-01-01,5,6\n";
    const { words } = await readText(meters, { corrections: [at(2, "meter_reset", "6", "yes")] });
    expect(words).toEqual([expect.stringContaining("the row has 4 cells where the header has 3")]);
  });

  it("is judged like any other", async () => {
    const { words } = await readText(rows, { corrections: [at(2, "meter", "4180", "x")] });
    expect(words).toEqual(['line 2, meter: "x" is not a number']);
  });

  it("may be corrected once more", async () => {
    const corrections = [at(2, "meter", "4180", "4810"), at(2, "meter", "4810", "4108")];
    expect((await readText(rows, { corrections })).tests[0]?.meter).toBe(4108);
  });
});
