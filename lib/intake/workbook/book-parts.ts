import type { Archive } from "./archive.ts";
import type { DaySystem } from "./cell-text.ts";
import { damaged, tooLarge } from "./limits.ts";
import { type NumberFormat, numberFormat, plain } from "./number-format.ts";
import { readWholeXml } from "./xml.ts";

/** The parts of a workbook beside its sheets (ECMA-376 part 1, 18.2 and 18.8; part 2 for the relationships). */

export interface SheetPart {
  readonly name: string;
  /** Nobody sees it in the spreadsheet program. */
  readonly hidden: boolean;
  readonly part: string;
}

export interface BookParts {
  readonly sheets: readonly SheetPart[];
  readonly days: DaySystem;
  /** null: the workbook has none. */
  readonly strings: string | null;
  readonly styles: string | null;
}

interface Relationship {
  /** The last word of its type: `worksheet`, `sharedStrings`. */
  readonly type: string;
  readonly part: string;
}

/** Parts that a part refers to, by the ids that it calls them by. */
async function relationships(archive: Archive, part: string): Promise<ReadonlyMap<string, Relationship>> {
  const folder = part.slice(0, part.lastIndexOf("/") + 1);
  const name = `${folder}_rels/${part.slice(folder.length)}.rels`;
  const found = new Map<string, Relationship>();
  if (!archive.names.has(name)) return found;
  await readWholeXml(archive.open(name), {
    open: (tag, { Id, Type = "", Target, TargetMode }) => {
      if (tag !== "Relationship" || Id === undefined || Target === undefined || TargetMode === "External") return;
      found.set(Id, { type: Type.slice(Type.lastIndexOf("/") + 1), part: partAt(folder, Target) });
    },
  });
  return found;
}

/** A target as written, from the folder of the part that names it. */
function partAt(folder: string, target: string): string {
  const steps: string[] = [];
  for (const step of (target.startsWith("/") ? target : folder + target).split("/")) {
    if (step === "..") steps.pop();
    else if (step !== "" && step !== ".") steps.push(step);
  }
  return steps.join("/");
}

/** The part that is the workbook itself; null: the archive is none. */
export async function bookPart(archive: Archive): Promise<string | null> {
  for (const { type, part } of (await relationships(archive, "")).values()) {
    if (type === "officeDocument" && part.endsWith(".xml") && archive.names.has(part)) return part;
  }
  return archive.names.has("xl/workbook.xml") ? "xl/workbook.xml" : null;
}

/** Kinds of sheet that hold no cells of a table. */
const withoutCells = ["chartsheet", "dialogsheet", "xlMacrosheet", "xlIntlMacrosheet"];

const idAttribute = /(^|:)id$/;
const isOn = (value: string | undefined) => value === "1" || value === "true";

/**
 * The sheets with cells in the order of their tabs, and where the rest lies. Throws `UnreadableFile` where a part is named
 * that is not there: without a sheet another would be read in its place, and without styles every share, date and fleet
 * number as the figure behind it.
 */
export async function bookParts(archive: Archive, book: string): Promise<BookParts> {
  const related = await relationships(archive, book);
  const sheets: SheetPart[] = [];
  let days: DaySystem = 1900;
  await readWholeXml(archive.open(book), {
    open: (tag, attributes) => {
      if (tag === "workbookPr" && isOn(attributes["date1904"])) days = 1904;
      if (tag !== "sheet") return;
      const id = Object.keys(attributes).find((key) => key !== "sheetId" && idAttribute.test(key));
      const relation = related.get(id === undefined ? "" : (attributes[id] ?? ""));
      if (relation !== undefined && withoutCells.includes(relation.type)) return;
      if (relation?.type !== "worksheet" || !archive.names.has(relation.part)) throw damaged();
      const state = attributes["state"] ?? "visible";
      sheets.push({ name: attributes["name"] ?? "", hidden: state !== "visible", part: relation.part });
    },
  });
  const partOf = (type: string) => {
    const part = [...related.values()].find((relation) => relation.type === type)?.part;
    if (part === undefined) return null;
    if (!archive.names.has(part)) throw damaged();
    return part;
  };
  return { sheets, days, strings: partOf("sharedStrings"), styles: partOf("styles") };
}

/** The number format of each cell style, by the style's place. */
export async function cellFormats(archive: Archive, part: string): Promise<readonly NumberFormat[]> {
  const codes = new Map<number, string>();
  const ids: number[] = [];
  let isInCellStyles = false;
  await readWholeXml(archive.open(part), {
    open: (tag, attributes) => {
      if (tag === "numFmt") codes.set(Number(attributes["numFmtId"]), attributes["formatCode"] ?? "");
      if (tag === "cellXfs") isInCellStyles = true;
      if (tag === "xf" && isInCellStyles) ids.push(Number(attributes["numFmtId"] ?? 0));
    },
    close: (tag) => {
      if (tag === "cellXfs") isInCellStyles = false;
    },
  });
  return ids.map((id) => numberFormat(id, codes.get(id)));
}

/**
 * The format of a cell's style, by the style's place. Style 0 is the one of cells that name none. Throws `UnreadableFile`
 * where the workbook has no such style: what the number is meant to show (a share, a day) is not known then.
 */
export function formatAt(formats: readonly NumberFormat[], style = "0"): NumberFormat {
  const format = /^\d+$/.test(style) ? formats[Number(style)] : undefined;
  if (format !== undefined) return format;
  if (style !== "0") throw damaged();
  return plain;
}

/** Letters of the strings that a workbook keeps apart, together. */
const mostSharedLetters = 64_000_000;

/** The strings that cells refer to by their place. */
export async function sharedStrings(archive: Archive, part: string): Promise<readonly string[]> {
  const strings: string[] = [];
  let letters = 0;
  const text = richText();
  await readWholeXml(archive.open(part), {
    open: (tag) => {
      if (tag === "si") text.begin();
      else text.open(tag);
    },
    text: text.text,
    close: (tag) => {
      text.close(tag);
      if (tag !== "si") return;
      const string = text.end();
      letters += string.length;
      if (letters > mostSharedLetters) throw tooLarge("its texts have more than 64 million letters");
      strings.push(string);
    },
  });
  return strings;
}

/** Text of a cell, which may come in runs of one look each; how it is pronounced is no part of it. */
export function richText() {
  let text = "";
  let isText = false;
  let isSound = false;
  return {
    begin: () => {
      text = "";
    },
    open: (tag: string) => {
      if (tag === "rPh") isSound = true;
      if (tag === "t") isText = true;
    },
    text: (piece: string) => {
      if (isText && !isSound) text += piece;
    },
    close: (tag: string) => {
      if (tag === "rPh") isSound = false;
      if (tag === "t") isText = false;
    },
    end: () => withoutEscapes(text),
  };
}

/** Control characters are written as `_x000D_` in a workbook's texts. */
export const withoutEscapes = (text: string): string =>
  text.includes("_x")
    ? text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code) => String.fromCharCode(Number.parseInt(code, 16)))
    : text;

/** A cell's reference to a shared string; throws `UnreadableFile` where there is none. */
export function sharedAt(strings: readonly string[], place: string): string {
  const string = /^\d+$/.test(place.trim()) ? strings[Number(place)] : undefined;
  if (string === undefined) throw damaged();
  return string;
}
