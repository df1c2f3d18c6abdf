import { describe, expect, it } from "vitest";
import { layoutOf, readByLayout, readingsOf } from "./made-up.ts";

const unit = { header: "Van", is: "field", field: "unit" };
const date = { header: "Tested", is: "field", field: "test_date" };
const hours = { header: "Hours", is: "field", field: "meter" };
const head = [unit, date, hours];
const h = { constants: { meter_unit: "h" } };
const reading = (header: string, more: object = {}) => ({ header, is: "reading", ...more });

describe("a file read by a layout", () => {
  it("gives a reading for each cylinder and measure side by side, and names its lines", async () => {
    const layout = layoutOf(
      [
        ...head,
        reading("Dry 1", { measure: "compression-dry", cylinder: 1, unit: "psi" }),
        reading("Dry 2", { measure: "compression-dry", cylinder: 2, unit: "psi" }),
        reading("Leak 1", { measure: "leak-down", cylinder: 1, unit: "%" }),
      ],
      { ...h, dateOrder: "day-first", decimalSign: "," },
    );
    const read = await readByLayout(
      "Van;Tested;Hours;Dry 1;Dry 2;Leak 1\nV-1;13.03.2026;4.180,5;175;168 psi;12 %\n",
      layout,
    );
    expect(read.words).toEqual(["the cells are parted by semicolons"]);
    expect(readingsOf(read)).toEqual([
      "V-1 2026-03-13 4180.5 h compression-dry 1: 175 psi",
      "V-1 2026-03-13 4180.5 h compression-dry 2: 168 psi",
      "V-1 2026-03-13 4180.5 h leak-down 1: 12 %",
    ]);
    expect(read.tests.map((test) => test.readings.length)).toEqual([2, 1]);
    expect(read.tests[0]?.readings[0]).toMatchObject({ line: 2, column: "Dry 1" });
    expect({ rows: read.rows, kind: read.kind }).toEqual({ rows: 1, kind: "tests-long" });
  });

  const long = layoutOf(
    [
      { ...unit, carriedDown: true },
      { ...date, carriedDown: true },
      { ...hours, carriedDown: true },
      { header: "Cyl", is: "field", field: "cylinder" },
      reading("Dry", { measure: "compression-dry", unit: "kPa" }),
    ],
    { ...h, decimalSign: "." },
  );

  it("takes blank cells of merged ones from above while the cylinders count up, and not beyond", async () => {
    const read = await readByLayout(
      "Van,Tested,Hours,Cyl,Dry\nV-1,2026-03-02,4180,1,1210\n,,,Cyl 2,1190\n,,,1,1180\nV-2,2026-03-02,90,1,1205\n",
      long,
    );
    expect(readingsOf(read)).toEqual([
      "V-1 2026-03-02 4180 h compression-dry 1: 1210 kPa",
      "V-1 2026-03-02 4180 h compression-dry 2: 1190 kPa",
      "V-2 2026-03-02 90 h compression-dry 1: 1205 kPa",
    ]);
    expect(read.words).toEqual([
      "line 4, Van: is empty; it is needed",
      "line 4, Tested: is empty; it is needed",
      "line 4, Hours: is empty; it is needed",
    ]);
  });

  it("passes over a title block, the header again, totals and lone remarks, and says so", async () => {
    const read = await readByLayout(
      "Depot North\n\nVan,Tested,Hours,Cyl,Dry\nV-1,2026-03-02,4180,1,1210\nVan,Tested,Hours,Cyl,Dry\nMax,2026-03-02,90,1,1205\nAverage,,,,1207\n,,,,\nChecked by A. Fitter\n",
      long,
    );
    expect(readingsOf(read).map((text) => text.slice(0, 3))).toEqual(["V-1", "Max"]);
    expect(read.issues.map(({ severity, line, code }) => [severity, line, code])).toEqual([
      ["mention", 7, "left-out-total"],
      ["mention", 9, "left-out-remark"],
    ]);
    expect(read.rows).toBe(2);
  });

  it("tells a fault of the row once, and names heading and text as the file has them", async () => {
    const layout = layoutOf(
      [...head, ...[1, 2].map((n) => reading(`No. ${n}`, { measure: "compression-dry", cylinder: n, unit: "kPa" }))],
      { ...h, decimalSign: "," },
    );
    const read = await readByLayout(
      "Van;Tested;Hours;No. 1;No. 2\nV-1;2026-02-30;4180;1210;x9\nV-2;2026-03-02;1;12.000,5;9\n",
      layout,
    );
    expect(read.issues.map(({ line, column, value, code }) => [line, column, value, code])).toEqual([
      [null, null, null, "delimiter"],
      [2, "Tested", "2026-02-30", "cell-no-such-date"],
      [2, "No. 2", "x9", "cell-not-a-number"],
      [3, "No. 1", "12.000,5", "pressure-too-high"],
    ]);
    expect(readingsOf(read)).toEqual(["V-2 2026-03-02 1 h compression-dry 2: 9 kPa"]);
  });

  it("refuses what could be meant in two ways as long as the layout does not say which", async () => {
    const layout = layoutOf([...head, reading("C1", { measure: "compression-dry", cylinder: 1, unit: "kPa" })], h);
    const read = await readByLayout(
      'Van,Tested,Hours,C1\nV-1,03/04/2026,"12,480",1210\nV-2,13/04/2026,"1,250.5",1210\n',
      layout,
    );
    expect(read.issues.map(({ line, column, value, code }) => [line, column, value, code])).toEqual([
      [2, "Tested", "03/04/2026", "cell-date-ambiguous"],
      [2, "Hours", "12,480", "cell-number-ambiguous"],
    ]);
    expect(readingsOf(read)).toEqual(["V-2 2026-04-13 1250.5 h compression-dry 1: 1210 kPa"]);
  });

  it("does not read by one decimal sign what was written by the other", async () => {
    const layout = layoutOf([...head, reading("C1", { measure: "compression-dry", cylinder: 1, unit: "bar" })], {
      ...h,
      decimalSign: ",",
    });
    const read = await readByLayout("Van;Tested;Hours;C1\nV-1;2026-03-02;100;12.5\n", layout);
    expect(read.words.slice(1)).toEqual([
      'line 2, C1: "12.5" does not fit the decimal sign of the layout; write it as the other numbers are written',
    ]);
    expect(readingsOf(read)).toEqual([]);
  });

  const held = (more: object = {}) =>
    layoutOf(
      [
        ...head,
        reading("LD 1", { measure: "leak-down", cylinder: 1, ...more }),
        { header: "Supply", is: "field", field: "supply", unit: "psi" },
      ],
      h,
    );

  it("takes held and supply from one cell in either order, but not from a compression", async () => {
    const read = await readByLayout(
      "Van,Tested,Hours,LD 1,Supply\nV-1,2026-03-02,100,76/80,\nV-2,2026-03-02,100,80 / 76 psi,80\nV-3,2026-03-02,100,74/76,80\n",
      held({ unit: "psi" }),
    );
    expect(read.issues.map(({ line, code }) => [line, code])).toEqual([[4, "cell-supply-twice"]]);
    expect(readingsOf(read)).toEqual([
      "V-1 2026-03-02 100 h leak-down 1: 76 psi, supply 80",
      "V-2 2026-03-02 100 h leak-down 1: 76 psi, supply 80",
    ]);
    const dry = layoutOf([...head, reading("C1", { measure: "compression-dry", cylinder: 1, unit: "psi" })], h);
    const refused = await readByLayout("Van,Tested,Hours,C1\nV-1,2026-03-02,100,150/165\n", dry);
    expect(refused.issues.map(({ code }) => code)).toEqual(["cell-not-a-number"]);
  });

  it("takes no pair for a leakage in per cent", async () => {
    const read = await readByLayout("Van,Tested,Hours,LD 1,Supply\nV-1,2026-03-02,100,76/80,\n", held({ unit: "%" }));
    expect(read.issues.map(({ column, value, code }) => [column, value, code])).toEqual([
      ["LD 1", "76/80", "cell-pair-percent"],
    ]);
    expect(readingsOf(read)).toEqual([]);
  });

  it("converts a supply to the unit in which the contract has it, and asks where nothing tells its unit", async () => {
    const text = "Van,Tested,Hours,LD 1,Supply\nV-1,2026-03-02,100,12,80\n";
    expect(readingsOf(await readByLayout(text, held({ unit: "%" })))).toEqual([
      "V-1 2026-03-02 100 h leak-down 1: 12 %, supply 551.58",
    ]);
    expect(readingsOf(await readByLayout(text, held({ unit: "bar" })))).toEqual([]);
    const asked = layoutOf(
      [
        ...head,
        reading("LD 1", { measure: "leak-down", cylinder: 1, unit: "%" }),
        { header: "Supply", is: "field", field: "supply" },
      ],
      h,
    );
    expect((await readByLayout(text, asked)).issues.map(({ code, column }) => [code, column])).toEqual([
      ["cell-supply-unit", "Supply"],
    ]);
    const inBar = await readByLayout(text.replace("12,80", "12,5.5 bar"), asked);
    expect(readingsOf(inBar)).toEqual(["V-1 2026-03-02 100 h leak-down 1: 12 %, supply 550"]);
  });

  it("gives each measure what concerns it, and a cylinder's own column before the row's", async () => {
    const layout = layoutOf(
      [
        ...head,
        reading("D1", { measure: "compression-dry", cylinder: 1, unit: "kPa" }),
        reading("L1", { measure: "leak-down", cylinder: 1, unit: "%" }),
        reading("L2", { measure: "leak-down", cylinder: 2, unit: "%" }),
        { header: "Heard", is: "field", field: "heard_at" },
        { header: "Heard 2", is: "field", field: "heard_at", cylinder: 2 },
        { header: "Gauge", is: "field", field: "instrument", measure: "compression-dry" },
        { header: "First", is: "field", field: "first_stroke", cylinder: 1, unit: "bar" },
      ],
      h,
    );
    const read = await readByLayout(
      "Van,Tested,Hours,D1,L1,L2,Heard,Heard 2,Gauge,First\nV-1,2026-03-02,100,1210,9,14,dipstick,ex,G7,6.4\nV-2,2026-03-02,100,,9,14,dipstick,,,\n",
      layout,
    );
    expect(read.issues).toEqual([]);
    expect(readingsOf(read)).toEqual([
      "V-1 2026-03-02 100 h compression-dry 1: 1210 kPa, first stroke 640, with G7",
      "V-1 2026-03-02 100 h leak-down 1: 9 %, heard crankcase",
      "V-1 2026-03-02 100 h leak-down 2: 14 %, heard exhaust",
      "V-2 2026-03-02 100 h leak-down 1: 9 %, heard crankcase",
      "V-2 2026-03-02 100 h leak-down 2: 14 %, heard crankcase",
    ]);
  });

  it("reads anew from each title block what that tells", async () => {
    const layout = layoutOf(
      [{ header: "Cyl", is: "field", field: "cylinder" }, reading("Dry", { measure: "compression-dry" })],
      {
        title: [
          { label: "Unit no", field: "unit" },
          { label: "Date", field: "test_date" },
          { label: "Hours", field: "meter" },
          { label: "Readings in", field: "value_unit" },
        ],
        constants: { meter_unit: "h" },
        dateOrder: "month-first",
      },
    );
    const sheet = (of: string, on: string) =>
      `UNIT NO.:,${of}\nDate: ${on},,Hours,4180 h\nReadings in psi\nCyl,Dry\n1,175\n2,n/a\n`;
    expect(readingsOf(await readByLayout(sheet("V-1", "3/4/26"), layout))).toEqual([
      "V-1 2026-03-04 4180 h compression-dry 1: 175 psi",
    ]);
    expect(readingsOf(await readByLayout(sheet("V-2", "12/31/25"), layout))).toEqual([
      "V-2 2025-12-31 4180 h compression-dry 1: 175 psi",
    ]);
  });

  it("joins a header of two rows, and finds columns wherever they stand", async () => {
    const columns = [
      unit,
      date,
      hours,
      reading("Dry 1", { measure: "compression-dry", cylinder: 1, unit: "psi" }),
      reading("Dry 2", { measure: "compression-dry", cylinder: 2, unit: "psi" }),
      reading("Wet 1", { measure: "compression-wet", cylinder: 1, unit: "psi" }),
      { header: "Note", is: "ignored" },
    ];
    const layout = layoutOf(columns, { ...h, headerRows: 2 });
    const read = await readByLayout(
      "Spring,,,,,\nVan,Wet,Dry,,Tested,Hours,Extra\n,1,1,2,,,\nV-1,182,175,168,2026-03-02,100,x\n",
      layout,
    );
    expect(readingsOf(read).sort()).toEqual([
      "V-1 2026-03-02 100 h compression-dry 1: 175 psi",
      "V-1 2026-03-02 100 h compression-dry 2: 168 psi",
      "V-1 2026-03-02 100 h compression-wet 1: 182 psi",
    ]);
    expect(read.words).toEqual(['the column "Extra" is not known and was ignored']);
  });

  it("refuses a file of another layout, naming what is missing", async () => {
    const { words, fileRefused } = await readByLayout("Van,When,Hours,Cyl,Dry\nV-1,2026-03-02,4180,1,1210\n", long);
    expect(fileRefused).toBe(true);
    expect(words).toEqual([
      'no row of the file has the columns of the layout; missing is "Tested"; choose another layout, or have one suggested',
    ]);
  });

  it("refuses a file whose title says another test than the layout holds of all", async () => {
    const layout = layoutOf([...head, reading("1", { cylinder: 1, unit: "psi" })], {
      constants: { meter_unit: "h", test: "compression-dry" },
    });
    const sheet = (title: string) => `${title}\nVan,Tested,Hours,1\nV-1,2026-03-02,100,175\n`;
    expect((await readByLayout(sheet("Compression test"), layout)).issues).toEqual([]);
    expect((await readByLayout(sheet("Wet compression"), layout)).words).toEqual([
      "the title says compression-wet, but by the layout the file holds compression-dry; choose another layout",
    ]);
  });

  it("refuses a row in which nothing was measured, and one with cells beyond the header", async () => {
    const layout = layoutOf([...head, reading("1", { measure: "compression-dry", cylinder: 1, unit: "psi" })], h);
    const read = await readByLayout("Van,Tested,Hours,1\nV-1,2026-03-02,100,n/a\nV-2,2026-03-02,100,175,9\n", layout);
    expect(read.issues.map(({ line, code }) => [line, code])).toEqual([
      [2, "nothing-measured"],
      [3, "too-many-cells"],
    ]);
    expect(read.rows).toBe(2);
  });
});
