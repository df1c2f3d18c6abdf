import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import { engineModelFileSchema } from "@/lib/schema/engine-model.ts";

/** Files that intake reads without a word, for the fuzz tests to spoil. */

export interface GoodFile {
  readonly name: string;
  readonly text: string;
  /** The line breaks and the delimiter that it is written with. */
  readonly lineBreak: "\n" | "\r\n" | "\r";
  readonly delimiter: "," | ";" | "\t" | "|";
}

const demoFolder = path.resolve(import.meta.dirname, "../../demo-data");
const demoText = (name: string) => readFileSync(path.join(demoFolder, name), "utf8");

/** The demo's engine models and one more, so that all rows below have an engine to be judged by. */
export const models: ReadonlyMap<string, EngineModel> = new Map(
  engineModelFileSchema
    .parse(JSON.parse(demoText("engine-models.json")))
    .engineModels.map((model): [string, EngineModel] => [model.id, model]),
);

export const today = "2026-12-31";

type Written = Pick<GoodFile, "delimiter" | "lineBreak">;
const plain: Written = { delimiter: ",", lineBreak: "\n" };

function file(name: string, rows: readonly (readonly string[])[], written: Written = plain): GoodFile {
  const { delimiter, lineBreak } = written;
  const cell = (text: string) =>
    [delimiter, '"', "\r", "\n"].some((mark) => text.includes(mark)) ? `"${text.replaceAll('"', '""')}"` : text;
  const text = rows.map((row) => `${row.map(cell).join(delimiter)}${lineBreak}`).join("");
  return { name, text, lineBreak, delimiter };
}

const longHeader = [
  ..."unit,engine_model,test_date,meter,meter_unit,test,cylinder,value,value_unit,attempt,supply,heard_at".split(","),
  ..."warm,first_stroke,instrument,remarks".split(","),
];
/** Where one begins with the delimiter, its opening quote looks like the closing one of a cell left open before. */
const remarkOf = (cylinder: number) => ["", ", worn", 'said "fine", no. 1', "; | ,"][cylinder - 1] ?? "";
const longRow = (test: number, cylinder: number): string[] => {
  const leakDown = test % 2 === 1;
  const head = ["V-1", "petrol-4-a", `2025-0${1 + test}-11`, `${41000 + 800 * test}`, "km"];
  const measured = leakDown
    ? ["leak-down", `${cylinder}`, `${8 + cylinder}.5`, "%", "1", "550", "crankcase+exhaust"]
    : ["compression-dry", `${cylinder}`, `${1180 + 7 * cylinder}`, "kPa", "", "", ""];
  return [...head, ...measured, "yes", leakDown ? "" : "610", "gauge 1", remarkOf(cylinder)];
};
const longRows = [0, 1, 2].flatMap((test) => [1, 2, 3, 4].map((cylinder) => longRow(test, cylinder)));

const wideHeader = "unit,engine_model,test_date,meter,meter_unit,test,value_unit,remarks,cyl_1,cyl_2,cyl_3,cyl_4";
const wideRows = Array.from({ length: 8 }, (_, i) => [
  ...["V-2", "petrol-4-a", `2025-0${i + 1}-20`, `${1000 + 90 * i}`, "h", "compression-dry", "psi"],
  i % 3 === 0 ? "two\nlines" : "",
  ...[170, 172.5, 168, 171].map((value) => `${value - i}`),
]);

const others: readonly GoodFile[] = [
  file("units.csv", [
    "unit,engine_model,meter_unit,depot,class,in_service_date,in_service_meter,status".split(","),
    ...Array.from({ length: 6 }, (_, i) => [
      ...[`V-${i + 1}`, "petrol-4-a", "km", "North, upper", "van", "2019-05-01", `${i * 10}`, "in-service"],
    ]),
  ]),
  file("depots.csv", [
    ["depot", "altitude_m"],
    ["North, upper", "620"],
    ["South", "-12.5"],
    ["East", ""],
  ]),
  file("repairs.csv", [
    "unit,repair_date,meter,scope,cylinders,found,cost,labour_hours,downtime_days,remarks".split(","),
    ...Array.from({ length: 6 }, (_, i) => [
      ...["V-1", `2024-0${i + 1}-05`, `${20000 + i}`, "top-end", "1+3", "exhaust-valve", "910.25", "14", "3"],
      `bill "${i}"; paid`,
    ]),
  ]),
  file("meters.csv", [
    "unit,reading_date,meter,meter_reset".split(","),
    ...Array.from({ length: 9 }, (_, i) => ["V-1", `2025-0${i + 1}-01`, `${30000 + 500 * i}`, i === 0 ? "yes" : ""]),
  ]),
  file("checks.csv", [
    "unit,check_date,meter,cylinder,check,result,value,value_unit,remarks".split(","),
    ...Array.from({ length: 6 }, (_, i) => [
      ...["V-1", `2025-0${i + 1}-09`, "", `${(i % 4) + 1}`, "valve-lift", "suspect", "8.25", "mm", "worn, a little"],
    ]),
  ]),
];

const longWritten: readonly Written[] = [
  plain,
  { delimiter: ",", lineBreak: "\r\n" },
  { delimiter: ";", lineBreak: "\r\n" },
  { delimiter: "\t", lineBreak: "\n" },
  { delimiter: "|", lineBreak: "\r" },
];

/** Small files of every kind that is CSV, in every delimiter and line break. */
export const smallFiles: readonly GoodFile[] = [
  ...longWritten.map((written, i) => file(`long-${i}.csv`, [longHeader, ...longRows], written)),
  file("wide.csv", [wideHeader.split(","), ...wideRows]),
  file("wide-semicolons.csv", [wideHeader.split(","), ...wideRows], { delimiter: ";", lineBreak: "\r\n" }),
  ...others,
];

export const demoFiles: readonly GoodFile[] = readdirSync(demoFolder)
  .filter((name) => name.endsWith(".csv"))
  .map((name) => ({ ...plain, name, text: demoText(name) }));

/** Some rows of each demo file: from its beginning, its middle and its end. */
export const demoParts: readonly GoodFile[] = demoFiles.flatMap((whole) => {
  const [header = "", ...rows] = whole.text.trimEnd().split("\n");
  return [0, Math.floor(rows.length / 2), Math.max(0, rows.length - 12)].map((from) => ({
    ...whole,
    text: `${[header, ...rows.slice(from, from + 12)].join("\n")}\n`,
  }));
});

export const modelsText = demoText("engine-models.json");
