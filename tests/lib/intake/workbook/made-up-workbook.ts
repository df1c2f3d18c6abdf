import { crc32, deflateRawSync } from "node:zlib";

/** Workbooks made part by part, so that each may be as odd as a test needs it. */

export type Parts = Readonly<Record<string, string>>;

/** A cell as its XML: `s("A1", 0)` a shared string, `n("B1", 5, 2)` a number in style 2. */
export const s = (place: string, index: number) => `<c r="${place}" t="s"><v>${index}</v></c>`;
export const n = (place: string, value: number | string, style?: number) =>
  `<c r="${place}"${style === undefined ? "" : ` s="${style}"`}><v>${value}</v></c>`;
export const inline = (place: string, text: string) =>
  `<c r="${place}" t="inlineStr"><is><t xml:space="preserve">${escaped(text)}</t></is></c>`;
export const row = (number: number, ...cells: readonly string[]) => `<row r="${number}">${cells.join("")}</row>`;
export const sheet = (rows: string, after = "") => `<worksheet><sheetData>${rows}</sheetData>${after}</worksheet>`;

const escaped = (text: string) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");

interface SheetOf {
  readonly name: string;
  readonly xml: string;
  readonly state?: string;
}

interface BookOf {
  readonly sheets: readonly SheetOf[];
  readonly strings?: readonly string[];
  /** Format codes of cell styles 1, 2, …; a number is that of a built-in format. Style 0 is general. */
  readonly formats?: readonly (string | number)[];
  readonly date1904?: boolean;
}

/** The parts of a workbook as a spreadsheet program writes them. */
export function bookParts({ sheets, strings = [], formats = [], date1904 = false }: BookOf): Parts {
  const type = (word: string) => `http://schemas.openxmlformats.org/officeDocument/2006/relationships/${word}`;
  const codes = formats.map((format, i) =>
    typeof format === "number" ? "" : `<numFmt numFmtId="${200 + i}" formatCode="${escaped(format)}"/>`,
  );
  const styles = formats.map((format, i) => `<xf numFmtId="${typeof format === "number" ? format : 200 + i}"/>`);
  return {
    "[Content_Types].xml": "<Types/>",
    "_rels/.rels": `<Relationships><Relationship Id="r1" Type="${type("officeDocument")}" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns:r="x"><workbookPr${date1904 ? ' date1904="1"' : ""}/><sheets>${sheets
      .map(
        ({ name, state = "visible" }, i) =>
          `<sheet name="${escaped(name)}" sheetId="${i + 7}" state="${state}" r:id="s${i}"/>`,
      )
      .join("")}</sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships>${sheets
      .map((_, i) => `<Relationship Id="s${i}" Type="${type("worksheet")}" Target="worksheets/sheet${i}.xml"/>`)
      .join(
        "",
      )}<Relationship Id="t" Type="${type("sharedStrings")}" Target="/xl/sharedStrings.xml"/><Relationship Id="y" Type="${type("styles")}" Target="styles.xml"/></Relationships>`,
    "xl/sharedStrings.xml": `<sst>${strings.map((text) => `<si>${text.startsWith("<") ? text : `<t>${escaped(text)}</t>`}</si>`).join("")}</sst>`,
    "xl/styles.xml": `<styleSheet><numFmts>${codes.join("")}</numFmts><cellStyleXfs><xf numFmtId="9"/></cellStyleXfs><cellXfs><xf numFmtId="0"/>${styles.join("")}</cellXfs></styleSheet>`,
    ...Object.fromEntries(sheets.map(({ xml }, i) => [`xl/worksheets/sheet${i}.xml`, xml])),
  };
}

/** One sheet of cells as they are typed: every row's texts, blank where nothing stands. */
export const sheetOfTexts = (rows: readonly (readonly string[])[]): string =>
  sheet(
    rows
      .map((texts, i) =>
        row(i + 1, ...texts.map((text, j) => (text === "" ? "" : inline(`${columnLetters(j)}${i + 1}`, text)))),
      )
      .join(""),
  );

const columnLetters = (index: number): string =>
  (index >= 26 ? columnLetters(Math.floor(index / 26) - 1) : "") + String.fromCharCode(65 + (index % 26));

interface ZipOptions {
  /** What the archive says of a part instead of the truth. */
  readonly lies?: Readonly<Record<string, { readonly unpacked?: number; readonly sum?: number }>>;
}

/** Packs parts to a ZIP archive (APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16). */
export function zipOf(parts: Readonly<Record<string, string | Uint8Array>>, { lies = {} }: ZipOptions = {}): Buffer {
  const locals: Buffer[] = [];
  const entries: Buffer[] = [];
  let at = 0;
  for (const [name, content] of Object.entries(parts)) {
    const bytes = Buffer.from(content);
    const packed = deflateRawSync(bytes);
    const file = Buffer.from(name);
    const fields = Buffer.alloc(26);
    fields.writeUInt16LE(20, 0);
    fields.writeUInt16LE(0x800, 2);
    fields.writeUInt16LE(8, 4);
    fields.writeUInt32LE(lies[name]?.sum ?? crc32(bytes), 10);
    fields.writeUInt32LE(packed.length, 14);
    fields.writeUInt32LE(lies[name]?.unpacked ?? bytes.length, 18);
    fields.writeUInt16LE(file.length, 22);
    const local = Buffer.concat([Buffer.from([0x50, 0x4b, 3, 4]), fields, file, packed]);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(at, 10);
    entries.push(Buffer.concat([Buffer.from([0x50, 0x4b, 1, 2, 20, 0]), fields, rest, file]));
    locals.push(local);
    at += local.length;
  }
  const directory = Buffer.concat(entries);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(entries.length, 8);
  end.writeUInt16LE(entries.length, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(at, 16);
  return Buffer.concat([...locals, directory, end]);
}
