import { fail, ok, type Result } from "../result.ts";
import type { RowIssue } from "../schema/intake.ts";
import { longestName } from "../schema/longest-name.ts";
import {
  type Columns,
  type CsvKind,
  columnKey,
  columnsOf,
  mostCylinders,
  numberedColumn,
  numberedColumns,
} from "../schema/rows.ts";
import { fileIssue, words } from "./words.ts";

/** What the header row of a file says: what the file is, and where its columns stand. */
export interface Header {
  readonly kind: CsvKind;
  /** Canonical name of each known column to where it stands and how the file spells it. */
  readonly places: ReadonlyMap<string, ColumnPlace>;
  /** Wide layout: the columns of each cylinder, ascending by cylinder. */
  readonly cylinders: readonly {
    readonly cylinder: number;
    readonly value: ColumnPlace | null;
    readonly heard: ColumnPlace | null;
  }[];
  /** Cells of the header row. */
  readonly width: number;
}

export interface ColumnPlace {
  readonly index: number;
  readonly spelled: string;
}

/** So many repeated columns are told one by one; the others are counted. */
const twiceTold = 20;

const keysFor = (kind: CsvKind): ReadonlyMap<string, string> =>
  new Map(Object.keys(columnsOf[kind]).map((name) => [columnKey(name), name]));

const keysOf: Record<CsvKind, ReadonlyMap<string, string>> = {
  "tests-long": keysFor("tests-long"),
  "tests-wide": keysFor("tests-wide"),
  units: keysFor("units"),
  depots: keysFor("depots"),
  repairs: keysFor("repairs"),
  meters: keysFor("meters"),
  checks: keysFor("checks"),
  judgements: keysFor("judgements"),
};

const neededOf = (kind: CsvKind) =>
  Object.entries<Columns[string]>(columnsOf[kind])
    .filter(([, column]) => column.needed)
    .map(([name]) => name);

interface Match {
  readonly kind: CsvKind;
  readonly known: number;
  readonly missing: readonly string[];
}

function matchOf(kind: CsvKind, keys: readonly string[]): Match {
  const present = new Set(keys.map((key) => keysOf[kind].get(key)).filter((name) => name !== undefined));
  const missing = neededOf(kind).filter((name) => !present.has(name));
  if (kind !== "tests-wide") return { kind, known: present.size, missing };
  const cylinders = new Set(keys.filter((key) => numberedColumn(key)?.is === "cyl")).size;
  return { kind, known: present.size + cylinders, missing: cylinders === 0 ? [...missing, "cyl_1 …"] : missing };
}

/**
 * The kind whose columns fit the header best: most known columns, less the needed ones that are missing. A list of
 * units or depots needs one column alone, so it must also be mostly made of known columns: a foreign file that happens
 * to have a column `unit` is no list of units.
 */
function kindOf(keys: readonly string[]): Match | null {
  const named = keys.filter((key) => key !== "").length;
  // A row that names its cylinder and its value is of one reading, whatever numbered columns stand beside them.
  const isLong = ["cylinder", "value"].every((key) => keys.includes(key));
  const best = (Object.keys(columnsOf) as CsvKind[])
    .filter((kind) => kind !== "tests-wide" || !isLong)
    .map((kind) => matchOf(kind, keys))
    .reduce((a, b) => (b.known - b.missing.length > a.known - a.missing.length ? b : a));
  if (best.known < 2 && best.kind !== "depots") return null;
  const mostlyKnown = best.known * 2 > named;
  const foreign = best.kind === "units" || best.kind === "depots" || best.missing.length > 0;
  return foreign && !mostlyKnown ? null : best;
}

/** What a file looks like by its header, be it that columns are missing; null: nothing tells. */
export const kindByHeader = (cells: readonly string[]): CsvKind | null =>
  kindOf(cells.map((cell) => columnKey(cell.trim())))?.kind ?? null;

/**
 * Reads the header row. `kind` says what the file is meant to be; null: its columns tell. Gives the header with
 * mentions of what is ignored, or the issues for which the file is refused as a whole: what it is cannot be told,
 * needed columns are missing (all are named), or a column appears twice.
 */
export function readHeader(
  cells: readonly string[],
  place: { readonly file: string; readonly line: number; readonly kind: CsvKind | null },
): Result<{ header: Header; mentions: readonly RowIssue[] }, readonly RowIssue[]> {
  const keys = cells.map((cell) => columnKey(cell.trim()));
  const spelled = cells.map((cell) => cell.trim().slice(0, longestName));
  const refuse = (code: string, why: string) => fileIssue("refused", code, place, why);
  const match = place.kind === null ? kindOf(keys) : matchOf(place.kind, keys);
  if (match === null) return fail([refuse("kind-unknown", words.kindUnknown(spelled))]);
  const { kind } = match;

  const issues: RowIssue[] = [];
  if (match.missing.length > 0) issues.push(refuse("columns-missing", words.columnsMissing(kind, match.missing)));

  const places = new Map<string, ColumnPlace>();
  const values = new Map<number, ColumnPlace>();
  const heard = new Map<number, ColumnPlace>();
  const unknown: string[] = [];
  const nameless: number[] = [];
  let twice = 0;
  const put = <K>(map: Map<K, ColumnPlace>, key: K, at: ColumnPlace) => {
    const first = map.get(key);
    if (first === undefined) map.set(key, at);
    else {
      twice += 1;
      if (twice <= twiceTold) issues.push(refuse("column-twice", words.columnTwice(first.spelled, at.spelled)));
    }
  };
  for (const [index, key] of keys.entries()) {
    const at = { index, spelled: spelled[index] as string };
    const name = keysOf[kind].get(key);
    const numbered = kind === "tests-wide" ? numberedColumn(key) : null;
    if (name !== undefined) put(places, name, at);
    else if (numbered !== null) put(numbered.is === "cyl" ? values : heard, numbered.cylinder, at);
    else if (key === "") nameless.push(index + 1);
    else unknown.push(at.spelled);
  }
  if (twice > twiceTold) issues.push(refuse("column-twice-more", words.columnsTwiceMore(twice - twiceTold)));
  if (issues.length > 0) return fail(issues);

  const mentions: RowIssue[] = [];
  const mention = (code: string, why: string) => mentions.push(fileIssue("mention", code, place, why));
  if (unknown.length > 0) mention("columns-unknown", words.columnsUnknown(unknown));
  if (nameless.length > 0) mention("columns-nameless", words.columnsNameless(nameless));
  const cylinders = Array.from({ length: mostCylinders }, (_, i) => i + 1)
    .filter((cylinder) => values.has(cylinder) || heard.has(cylinder))
    .map((cylinder) => ({ cylinder, value: values.get(cylinder) ?? null, heard: heard.get(cylinder) ?? null }));
  return ok({ header: { kind, places, cylinders, width: cells.length }, mentions });
}

/** One line for people on each column of a kind of file, in the order of the contract. */
export interface ColumnGuide {
  readonly name: string;
  /** `yes`, `no`, or when it is needed. */
  readonly needed: string;
  readonly about: string;
}

/** What a file of one kind may carry: for the documentation and for templates. Made from what the parser itself uses. */
export function columnGuide(kind: CsvKind): readonly ColumnGuide[] {
  const guide = ([name, column]: [string, Columns[string]]): ColumnGuide => ({
    name,
    needed: column.needed ? "yes" : column.neededWhen === "" ? "no" : `when ${column.neededWhen}`,
    about: column.about,
  });
  const listed = Object.entries<Columns[string]>(columnsOf[kind]).map(guide);
  if (kind !== "tests-wide") return listed;
  return [
    ...listed,
    { name: `cyl_1 … cyl_${mostCylinders}`, needed: "yes, at least one", about: numberedColumns.cyl.about },
    { name: `heard_1 … heard_${mostCylinders}`, needed: "no", about: numberedColumns.heard.about },
  ];
}
