import type { CellChange, ChangedThing } from "../../../db/changed-rows.ts";
import { measures } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { measureWords } from "../../../lib/wording.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { isLikelihood, modelFieldWords } from "../models/field-words.ts";
import { percentText } from "../models/likelihood-text.ts";

const columnWord = (field: string): string => field.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

const isDate = (part: unknown): part is string => typeof part === "string" && /^\d{4}-\d{2}-\d{2}$/.test(part);

const kindWord = {
  tests: "test",
  units: "unit",
  depots: "depot",
  repairs: "repair",
  meterReadings: "meter reading",
  checks: "check",
  judgements: "judgement of a test",
  models: "engine model",
} as const satisfies Record<ChangedThing["kind"], string>;

/** "V-112: leak-down, 3 May 2026", "Highcol: depot" */
export function thingTitle({ kind, subject, about }: ChangedThing, f: Pick<Formats, "date">): string {
  const parts = about.filter((part) => part !== null && part !== "");
  if (kind === "tests") {
    const [date, measure, attempt, instrument] = about;
    const test = measures.find((one) => one === measure);
    const repeat = attempt === 1 ? "" : `, attempt ${attempt}`;
    const tool = instrument === null ? "" : `, ${instrument}`;
    return `${subject}: ${test === undefined ? measure : measureWords[test]}, ${f.date(String(date))}${repeat}${tool}`;
  }
  if (kind === "meterReadings") return `${subject}: meter reading, ${parts.filter(isDate).map(f.date).join("")}`;
  const told = parts.map((part) => (isDate(part) ? f.date(part) : String(part)));
  return `${subject}: ${[kindWord[kind], ...told].join(", ")}`;
}

/** Two versions of a model as a change. */
export const modelChange = (before: object, after: object): CellChange => ({
  column: "model",
  cylinder: null,
  before,
  after,
});

/** The cells of a change; an engine model's are those of its figures that differ. */
export function changeLines(
  { column, cylinder, before, after, unit }: CellChange,
  f: Pick<Formats, "date">,
): ChangeLine[] {
  if (column === "model") {
    const [old, next] = [leaves(before, "", f), leaves(after, "", f)];
    return [...new Set([...old.keys(), ...next.keys()])]
      .filter((path) => old.get(path) !== next.get(path))
      .map((path) => ({
        column: modelFieldWords(path),
        before: old.get(path) ?? "blank",
        after: next.get(path) ?? "blank",
      }));
  }
  const place = cylinder === null ? "" : `cylinder ${cylinder}, `;
  return [
    {
      column: place + columnWord(column) + (unit === undefined ? "" : `, ${unit}`),
      before: valueWord(before, f),
      after: valueWord(after, f),
    },
  ];
}

function valueWord(value: unknown, f: Pick<Formats, "date">): string {
  if (value === null || value === undefined || value === "") return "blank";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.length === 0 ? "blank" : value.join("+");
  return isDate(value) ? f.date(value) : String(value);
}

/** Every figure or word of a nested value by its path; lists count as one value. */
function leaves(value: unknown, path: string, f: Pick<Formats, "date">): Map<string, string> {
  if (typeof value === "number" && isLikelihood(path)) return new Map([[path, percentText(value)]]);
  if (value === null || typeof value !== "object") return new Map([[path, valueWord(value, f)]]);
  if (Array.isArray(value)) return new Map([[path, JSON.stringify(value)]]);
  return new Map(
    Object.entries(value).flatMap(([key, inner]) => [...leaves(inner, path === "" ? key : `${path}.${key}`, f)]),
  );
}
