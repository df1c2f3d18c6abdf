import { type Layout, layoutSchema } from "@/lib/layout/layout.ts";
import { bookParts, inline, n, type Parts, row, s, sheet } from "../lib/intake/workbook/made-up-workbook.ts";

/** Workbooks that intake reads without a word, for the fuzz tests to spoil. */

export interface GoodWorkbook {
  readonly name: string;
  readonly parts: Parts;
  /** The part of the sheet that is read. */
  readonly sheet: string;
  /** How its columns are read; left out: they are those of the contract. */
  readonly layout?: Layout;
}

/** The column of a reading, by the letter that every row calls it by. */
export const valueColumn = "H";
/** Formats by their places from 1: two of shares, a day, a unit's number, a meter with thousands, a pressure. */
const formats = ["0.0%", 10, 14, '"V-"000', "#,##0", "0.0"];

const fields = "unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,supply,warm,remarks".split(
  ",",
);
const foreign = "Fleet no.,Engine,Day,Odometer,in,Kind,Cyl.,Result,of,Air,Warm,Notes".split(",");

const msADay = 86_400_000;
const from1900 = Date.UTC(1899, 11, 30);
const from1904 = Date.UTC(1904, 0, 1);

const texts = ["petrol-4-a", "km", "leak-down", "compression-dry", "%", "kPa", "yes", "worn, a little"];
const strings = [...fields, ...foreign, ...texts];
const shared = (place: string, text: string) => s(place, strings.indexOf(text));

interface Rows {
  /** The instant from which days are counted. */
  readonly epoch: number;
  /** Tells the readings of one sheet from those of another. */
  readonly level: number;
  /** Leakage is written as a share of one, with the format that shows it as a percentage. */
  readonly shares: boolean;
}

function testRow(at: number, test: number, cylinder: number, { epoch, level, shares }: Rows): string {
  const isLeakDown = test % 2 === 1;
  const leakage = 7.5 + cylinder + level + test / 2;
  const reading = isLeakDown ? (shares ? leakage / 100 : leakage) : 1180 + 7 * cylinder - test + level;
  const style = isLeakDown && shares ? 1 + (cylinder % 2) : 6;
  const day = (Date.parse(`2025-0${1 + test}-11T00:00:00Z`) - epoch) / msADay;
  return row(
    at,
    n(`A${at}`, 7 + test, 4),
    // The first rows are one merged area.
    at > 2 && at <= 5 ? "" : shared(`B${at}`, "petrol-4-a"),
    n(`C${at}`, day, 3),
    n(`D${at}`, 41_000 + 800 * test, 5),
    shared(`E${at}`, "km"),
    shared(`F${at}`, isLeakDown ? "leak-down" : "compression-dry"),
    n(`G${at}`, cylinder),
    `<c r="${valueColumn}${at}" s="${style}"><f>Z${at}</f><v>${reading}</v></c>`,
    shared(`I${at}`, isLeakDown ? "%" : "kPa"),
    isLeakDown ? n(`J${at}`, 550) : "",
    shared(`K${at}`, "yes"),
    cylinder === 2 ? shared(`L${at}`, "worn, a little") : cylinder === 3 ? inline(`L${at}`, 'said "fine"') : "",
  );
}

function sheetOf(header: readonly string[], rows: Rows): string {
  const places = [0, 1, 2, 3].flatMap((test) => [1, 2, 3, 4].map((cylinder) => [test, cylinder] as const));
  const head = row(1, ...header.map((text, i) => shared(`${String.fromCharCode(65 + i)}1`, text)));
  const below = places.map(([test, cylinder], i) => testRow(i + 2, test, cylinder, rows));
  return sheet(head + below.join(""), '<mergeCells count="1"><mergeCell ref="B2:B5"/></mergeCells>');
}

const layout = layoutSchema.parse({
  layoutVersion: 1,
  headerRows: 1,
  columns: foreign.map((header, i) =>
    fields[i] === "value"
      ? { header, is: "reading" }
      : { header, is: "field", field: fields[i], unit: fields[i] === "supply" ? "kPa" : null },
  ),
  decimalSign: ".",
});

/** One with a hidden sheet of other readings before the one that is read; one of shares that counts its days from 1904. */
export const goodWorkbooks: readonly GoodWorkbook[] = [
  {
    name: "a hidden sheet first",
    sheet: "xl/worksheets/sheet1.xml",
    parts: bookParts({
      strings,
      formats,
      sheets: [
        { name: "Older", xml: sheetOf(fields, { epoch: from1900, level: 3, shares: false }), state: "hidden" },
        { name: "Tests", xml: sheetOf(fields, { epoch: from1900, level: 0, shares: false }) },
      ],
    }),
  },
  {
    name: "shares, and days from 1904",
    sheet: "xl/worksheets/sheet0.xml",
    layout,
    parts: bookParts({
      strings,
      formats,
      date1904: true,
      sheets: [{ name: "Tests", xml: sheetOf(foreign, { epoch: from1904, level: 1, shares: true }) }],
    }),
  },
];
