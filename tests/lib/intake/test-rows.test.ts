import { describe, expect, it } from "vitest";
import { csvOf, goodRow, noFleet, readText } from "./read-text.ts";

type Row = Readonly<Record<string, string>>;
const wordsOf = async (change: Row) => (await readText(csvOf([{ ...goodRow, ...change }]))).words;
const compression = { test: "compression-dry", value: "1210", value_unit: "kPa" };
const held = { value_unit: "psi", supply: "80", value: "70" };

describe("a row of test results", () => {
  it("becomes a reading as written", async () => {
    const row = { ...goodRow, heard_at: "exhaust+crankcase", warm: "yes", remarks: " a b ", order: "2", supply: "550" };
    const { tests, issues, kind, rows } = await readText(csvOf([row]));
    expect({ kind, rows, issues }).toEqual({ kind: "tests-long", rows: 1, issues: [] });
    expect(tests).toHaveLength(1);
    expect(tests[0]).toMatchObject({
      unit: "V-1",
      date: "2026-03-02",
      meter: 4180,
      attempt: 1,
      warm: true,
      file: "a.csv",
    });
    expect(tests[0]?.readings).toEqual([
      {
        cylinder: 1,
        value: 12.5,
        valueUnit: "%",
        supply: 550,
        firstStroke: null,
        heardAt: ["crankcase", "exhaust"],
        order: 2,
        remarks: "a b",
        line: 2,
      },
    ]);
  });

  it.each<[string, Row]>([
    ["line 2, value: 950 % is not a leakage; it must lie between 0 and 100", { value: "950" }],
    ["line 2, value: -0.1 % is not a leakage; it must lie between 0 and 100", { value: "-0.1" }],
    ["line 2, value: is empty; it is needed", { value: "" }],
    ['line 2, value: "n/a" is not a reading; leave out the row of what was not measured', { value: "n/a" }],
    ['line 2, value: "twelve" is not a number', { value: "twelve" }],
    ['line 2, value: "0x10" is not a number; write the number alone, without a unit', { value: "0x10" }],
    ['line 2, value: "12 %" is not a number; write the number alone, without a unit', { value: "12 %" }],
    [
      'line 2, value: "12,5" is not read as a number: decimal points are dots, and nothing parts the thousands; write 12.5, or 125 if the comma parts the thousands',
      { value: "12,5" },
    ],
    [
      'line 2, value: "2.250,5" is not read as a number: decimal points are dots, and nothing parts the thousands; write 2250.5',
      { value: "2.250,5" },
    ],
    [
      'line 2, value: "2,250.5" is not read as a number: decimal points are dots, and nothing parts the thousands; write 2250.5',
      { value: "2,250.5" },
    ],
    ["line 2, value: -3 kPa is not possible; a pressure must not be negative", { ...compression, value: "-3" }],
    [
      "line 2, value: 101 bar is not possible; a pressure must not be above 10,000 kPa",
      { ...compression, value: "101", value_unit: "bar" },
    ],
    ["line 2, value: 81 psi cannot be held at a supply of 80 psi", { ...held, value: "81" }],
    [
      "line 2, supply: is empty; a leak-down value that is a held pressure needs the supply pressure",
      { ...held, supply: "" },
    ],
    ['line 2, supply: "0" is not possible; it must be above 0', { ...held, supply: "0" }],
    [
      "line 2, value_unit: % is for leak-down tests; a compression is read in kPa, bar, psi or kgf/cm2",
      { ...compression, value_unit: "%" },
    ],
    ['line 2, value_unit: "mmHg" is not known; it must be kPa, bar, psi, kgf/cm2 or %', { value_unit: "mmHg" }],
    ['line 2, cylinder: "0" is not possible; it must lie between 1 and 16', { cylinder: "0" }],
    ['line 2, cylinder: "17" is not possible; it must lie between 1 and 16', { cylinder: "17" }],
    ['line 2, cylinder: "1.5" is not a whole number', { cylinder: "1.5" }],
    ['line 2, meter: "-1" is not possible; it must lie between 0 and 10,000,000', { meter: "-1" }],
    ['line 2, meter: "1e12" is not possible; it must lie between 0 and 10,000,000', { meter: "1e12" }],
    ['line 2, meter_unit: "miles" is not known; it must be h, km or mi', { meter_unit: "miles" }],
    ["line 2, test_date: there is no date 2026-02-30", { test_date: "2026-02-30" }],
    ["line 2, test_date: there is no date 0026-02-03", { test_date: "0026-02-03" }],
    [
      'line 2, test_date: "02.03.2026" is not a date; write it as YYYY-MM-DD, such as 2026-06-30',
      { test_date: "02.03.2026" },
    ],
    [
      'line 2, test_date: "2026-03-02 at noon" is not a date; write it as YYYY-MM-DD, such as 2026-06-30',
      { test_date: "2026-03-02 at noon" },
    ],
    ['line 2, test: "boost" is not known; it must be compression-dry, compression-wet or leak-down', { test: "boost" }],
    ['line 2, engine_model: the engine model "six" is not known; known are four and single', { engine_model: "six" }],
    ['line 2, warm: "maybe" is not known; it must be yes or no', { warm: "maybe" }],
    [
      'line 2, heard_at: "none+exhaust" names none beside another place; it can only be one of the two',
      { heard_at: "none+exhaust" },
    ],
    [
      'line 2, heard_at: "oil" is not known; it must be crankcase, inlet, exhaust, coolant, neighbour or none',
      { heard_at: "oil" },
    ],
    ['line 2, barometer_kpa: "1013" is not possible; it must lie between 30 and 110', { barometer_kpa: "1013" }],
    ['line 2, attempt: "0" is not possible; it must lie between 1 and 100,000', { attempt: "0" }],
    ['line 2, cranking_rpm: "1e300" is not possible; it must be above 0 and at most 3000', { cranking_rpm: "1e300" }],
    ['line 2, orifice_mm: "1e200" is not possible; it must lie between 0.01 and 25', { orifice_mm: "1e200" }],
    ["line 2, orifice_mm: 0.04 looks like inches: 1.016 mm; write millimetres", { orifice_mm: "0.04" }],
    ["line 2, orifice_mm: 0.118 looks like inches: 2.997 mm; write millimetres", { orifice_mm: "0.118" }],
    ['line 2, order: "1e15" is not possible; it must lie between 1 and 100,000', { order: "1e15" }],
  ])("is refused: %s", async (words, change) => {
    const { words: told, tests, issues } = await readText(csvOf([{ ...goodRow, ...change }]));
    expect(told).toEqual([words]);
    expect(tests).toEqual([]);
    expect(issues[0]?.severity).toBe("refused");
  });

  it.each(["0.2", "0.39", "3.6", "25"])("is taken with a warning where the bore is %s mm", async (bore) => {
    const { words: told, tests, issues } = await readText(csvOf([{ ...goodRow, orifice_mm: bore }]));
    expect(told).toEqual([
      `line 2, orifice_mm: ${bore} mm is unusual for a restrictor, which has 0.4 to 3.5 mm; taken, but check the unit`,
    ]);
    expect(issues[0]?.severity).toBe("warning");
    expect(tests).toMatchObject([{ orificeMm: Number(bore) }]);
  });

  it.each<[string, Row]>([
    ["leakage of 0", { value: "0" }],
    ["a bore of 0.4 mm", { orifice_mm: "0.4" }],
    ["a bore of 3.5 mm", { orifice_mm: "3.5" }],
    ["a bore beside a compression, where it says nothing", { ...compression, orifice_mm: "0.04" }],
    ["leakage of 100", { value: "100" }],
    ["a pressure of 10,000 kPa", { ...compression, value: "10000" }],
    ["a held pressure as high as its supply", { ...held, value: "80" }],
    ["units of value in any case, and with a raised 2", { ...compression, value: "12", value_unit: "KGF/cm²" }],
    ["words in any case and with blanks", { test: "Leak Down" }],
    ["y for yes", { warm: "Y" }],
    ["a leap day", { test_date: "2024-02-29" }],
    ["n/a in an optional column", { cranking_rpm: "n/a" }],
  ])("is taken with %s", async (_what, change) => {
    expect(await wordsOf(change)).toEqual([]);
  });

  it.each(["n/a", "N.A.", "-", "–", "?", "unknown", "Unknown"])(
    "knows no engine serial where it says %s",
    async (text) => {
      const { tests, issues } = await readText(csvOf([{ ...goodRow, engine_serial: text, instrument: text }]));
      expect(issues).toEqual([]);
      expect(tests).toMatchObject([{ engineSerial: null, instrument: null }]);
    },
  );

  it("tells all its problems, by the columns as the header spells them", async () => {
    const text = csvOf([{ ...goodRow, value: "950", test_date: "2026-02-30", meter: "x" }]).replace(
      "test_date",
      "Test Date",
    );
    const { issues } = await readText(text);
    expect(issues.map((i) => [i.line, i.column, i.value])).toEqual([
      [2, "Test Date", "2026-02-30"],
      [2, "meter", "x"],
      [2, "value", "950"],
    ]);
  });

  it("keeps the time of day that follows a date, but the date decides", async () => {
    const { tests } = await readText(csvOf([{ ...goodRow, test_date: "2026-03-02T14:05" }]));
    expect(tests[0]).toMatchObject({ date: "2026-03-02", time: "14:05" });
  });

  it("is refused for a date after today, where there is a today", async () => {
    const row = csvOf([goodRow]);
    const on = async (today: string | null) => (await readText(row, { known: { ...noFleet, today } })).words;
    expect(await on("2026-03-01")).toEqual(["line 2, test_date: 2026-03-02 lies after today (2026-03-01)"]);
    expect(await on("2026-03-02")).toEqual([]);
    expect(await on(null)).toEqual([]);
  });

  it("warns of air heard in a compression test and does not take the places over", async () => {
    const { tests, issues } = await readText(csvOf([{ ...goodRow, ...compression, heard_at: "exhaust" }]));
    expect(issues.map((i) => i.severity)).toEqual(["warning"]);
    expect(tests[0]?.readings[0]?.heardAt).toEqual([]);
  });

  it("leaves the good rows of the file standing", async () => {
    const rows = [goodRow, { ...goodRow, cylinder: "2", value: "x" }, { ...goodRow, cylinder: "3" }];
    const { tests, words } = await readText(csvOf(rows));
    expect(tests.flatMap((t) => t.readings.map((r) => r.cylinder))).toEqual([1, 3]);
    expect(words).toEqual(['line 3, value: "x" is not a number']);
  });
});

describe("a row of the wide layout", () => {
  const { cylinder: _cylinder, value: _value, ...wide } = goodRow;

  it("is the same as its readings as long rows", async () => {
    const wideFile = csvOf([
      { ...wide, cyl_1: "10", c2: "n/a", "3": "", Cyl4: "12", heard_4: "inlet", heard_at: "exhaust" },
    ]);
    const longFile = csvOf([
      { ...goodRow, cylinder: "1", value: "10", heard_at: "exhaust" },
      { ...goodRow, cylinder: "4", value: "12", heard_at: "inlet" },
    ]);
    const a = await readText(wideFile);
    const b = await readText(longFile);
    expect(a.kind).toBe("tests-wide");
    expect(a.issues).toEqual([]);
    const readings = (file: typeof a) => file.tests.flatMap((t) => t.readings.map((r) => ({ ...r, line: 0 })));
    expect(readings(a).map((r) => r.column)).toEqual(["cyl_1", "Cyl4"]);
    expect(readings(a).map(({ column: _column, ...r }) => r)).toEqual(readings(b));
  });

  it("loses only the cylinder whose cell is wrong", async () => {
    const { tests, words } = await readText(
      csvOf([{ ...wide, cyl_1: "10", cyl_2: "950", cyl_3: "x", heard_1: "oil" }]),
    );
    expect(words).toEqual([
      'line 2, heard_1: "oil" is not known; it must be crankcase, inlet, exhaust, coolant, neighbour or none',
      "line 2, cyl_2: 950 % is not a leakage; it must lie between 0 and 100",
      'line 2, cyl_3: "x" is not a number',
    ]);
    expect(tests).toEqual([]);
    const other = await readText(csvOf([{ ...wide, cyl_1: "10", cyl_2: "950" }]));
    expect(other.tests.flatMap((t) => t.readings.map((r) => r.cylinder))).toEqual([1]);
  });

  it("is refused where nothing was measured, or where the row itself is wrong", async () => {
    expect((await readText(csvOf([{ ...wide, cyl_1: "", cyl_2: "n/a" }]))).words).toEqual([
      "line 2: no cylinder of this row was measured",
    ]);
    const { tests, words } = await readText(csvOf([{ ...wide, meter: "", cyl_1: "10" }]));
    expect(words).toEqual(["line 2, meter: is empty; it is needed"]);
    expect(tests).toEqual([]);
  });
});
