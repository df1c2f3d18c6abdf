import { z } from "zod";
import { overlapOf } from "../../../lib/depot-calendar.ts";
import { type Workshop, workshopSchema } from "../../../lib/schema/workshop.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { periodFieldsSchema } from "../depots/depot-form.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";
import { classFields, type FigureName, fieldNamed, figureNames } from "./field-sets.ts";
import { cellsOf, classCells, type ListName, listNames } from "./list-sets.ts";
import { type WorkshopFields, workshopFields } from "./workshop-fields.ts";

const typed = z.string().max(400);
/** A group may name every unit of a fleet. */
const longTyped = z.string().max(40_000);
/** A form of more rows is no form that a person filled in. */
const mostRows = 1000;

const rowOf = (list: ListName) =>
  z.object({
    key: z.number(),
    ...Object.fromEntries(cellsOf(list).map(({ name }) => [name, name === "units" ? longTyped : typed])),
  });

export const workshopFieldsSchema = z.object({
  figures: z.object(Object.fromEntries(figureNames.map((name) => [name, typed]))),
  classes: z
    .array(z.object({ unitClass: typed, ...Object.fromEntries(classFields.map(({ name }) => [name, typed])) }))
    .max(mostRows),
  periods: z.array(periodFieldsSchema).max(mostRows),
  ...Object.fromEntries(listNames.map((list) => [list, z.array(rowOf(list)).max(mostRows)])),
});

export type ReadWorkshop =
  | { readonly ok: true; readonly workshop: Workshop }
  | { readonly ok: false; readonly problems: FieldProblems };

/**
 * Reads the form. Either all of it holds, or each field that does not has its reason, under the field's name: that of a
 * figure, `classes.van.dayOff`, `periods.0.firstWeek`, `groups.0.units`. `seen`: what the form was printed from; a figure
 * that stands as it was printed, with a point for everybody, is read so. `sign`: the viewer's.
 */
export function readWorkshopFields(
  fields: WorkshopFields,
  { seen, sign: viewers = "." }: { readonly seen: Workshop; readonly sign?: DecimalSign },
): ReadWorkshop {
  const texts = new Map(entriesOf(fields));
  const printed = new Map(entriesOf(workshopFields(seen, [])));
  const signOf = (field: string) => (texts.get(field) === printed.get(field) ? "." : viewers);
  const figure = (field: string) => figureOf(texts.get(field) ?? "", signOf(field));
  const problems: Record<string, string> = namesakes(fields);
  const parsed = workshopSchema.safeParse(documentOf(fields, figure));
  for (const { path, code, message } of parsed.error?.issues ?? []) {
    const field = fieldAt(fields, path);
    problems[field] ??=
      figureProblem(texts.get(field) ?? "", signOf(field)) ?? (code === "custom" ? message : takesAt(field, message));
  }
  const overlap = parsed.success ? overlapOf(parsed.data.anyDepot.periods) : null;
  if (overlap !== null) {
    problems[`periods.${overlap[1]}`] =
      `Lies over period ${overlap[0] + 1}. Only a closing between dates may lie within peak weeks.`;
  }
  return parsed.success && Object.keys(problems).length === 0
    ? { ok: true, workshop: parsed.data }
    : { ok: false, problems };
}

/** Every text of the form by its field's name. */
function entriesOf(fields: WorkshopFields): [string, string][] {
  return [
    ...Object.entries(fields.figures),
    ...fields.classes.flatMap((row) =>
      classFields.map(({ name }): [string, string] => [classField(row, name), row[name]]),
    ),
    ...fields.periods.flatMap((period, i) =>
      Object.entries(period).map(([name, value]): [string, string] => [`periods.${i}.${name}`, String(value)]),
    ),
    ...listNames.flatMap((list) =>
      rowsOf(fields, list).flatMap((row, i) =>
        cellsOf(list).map(({ name }): [string, string] => [`${list}.${i}.${name}`, row[name] ?? ""]),
      ),
    ),
  ];
}

const classField = ({ unitClass }: { readonly unitClass: string }, name: string): string =>
  `classes.${unitClass}.${name}`;

/** The rows of a list by the names of their cells, whichever list it is. */
const rowsOf = (fields: WorkshopFields, list: ListName): readonly Readonly<Record<string, string>>[] =>
  // Their key is the only cell that is no text, and no cell is called so.
  fields[list] as unknown as readonly Readonly<Record<string, string>>[];

/** What was typed as a document, with NaN where a figure cannot be read; `figure` reads a field by its name. */
function documentOf(fields: WorkshopFields, figure: (field: string) => number | null): object {
  const document: Record<string, unknown> = {};
  for (const name of figureNames) putAt(document, name, figureAt(fields, name, figure));
  const rows = (list: ListName) =>
    rowsOf(fields, list).map((row, i) => {
      const cells = cellsOf(list).map(({ name, kind, empty }) => {
        const value = kind === undefined ? figure(`${list}.${i}.${name}`) : (row[name] ?? "").trim();
        return [name, value === null || value === "" ? (empty === undefined ? value : undefined) : value];
      });
      // What is left out has its default.
      return Object.fromEntries(cells.filter(([, value]) => value !== undefined));
    });
  const classes = fields.classes.flatMap((row) => {
    const told = classFields.map(({ name }) => [name, figure(classField(row, name))] as const);
    const some = told.filter(([, value]) => value !== null);
    return some.length === 0 ? [] : [[row.unitClass, Object.fromEntries(some)] as const];
  });
  return {
    ...document,
    anyDepot: {
      ...(document["anyDepot"] as object),
      periods: fields.periods.map(({ kind, repeat, remarks, ...period }, i) => ({
        kind,
        repeat,
        remarks: remarks.trim() === "" ? null : remarks,
        ...(repeat === "once"
          ? { firstDate: period.firstDate, lastDate: period.lastDate }
          : { firstWeek: figure(`periods.${i}.firstWeek`), lastWeek: figure(`periods.${i}.lastWeek`) }),
      })),
    },
    unitClasses: Object.fromEntries(classes),
    peaks: rows("peaks"),
    spares: Object.fromEntries(rows("spares").map(({ model, ...spare }) => [model, spare])),
    groups: rows("groups").map((group) => ({ ...group, units: unitsIn(String(group["units"] ?? "")) })),
    otherWork: rows("otherWork"),
    taken: rows("taken"),
  };
}

/** Names with commas between, each once; a semicolon or a new line parts them as well. */
const unitsIn = (text: string): string[] =>
  text
    .split(/[,;\n]/)
    .map((name) => name.trim())
    .filter((name) => name !== "");

function figureAt(fields: WorkshopFields, name: FigureName, figure: (field: string) => number | null): unknown {
  const { kind, empty } = fieldNamed[name];
  const text = fields.figures[name].trim();
  if (text === "" && empty !== undefined) return null;
  if (kind === "text") return text.toUpperCase();
  if (kind === "date") return text;
  const value = figure(name);
  return kind === "share" && value !== null ? Number((value / 100).toFixed(8)) : value;
}

function putAt(document: Record<string, unknown>, path: string, value: unknown): void {
  const [first = "", second] = path.split(".");
  if (second === undefined) document[first] = value;
  else document[first] = { ...(document[first] as object | undefined), [second]: value };
}

/** The field that a place of the document is read from. */
export function fieldAt(fields: WorkshopFields, path: readonly PropertyKey[]): string {
  const [first, second, third, fourth] = path.map(String);
  if (first === "anyDepot" && second === "periods") return ["periods", third, fourth].filter(Boolean).join(".");
  if (first === "unitClasses") return `classes.${second}.${third}`;
  if (first === "spares") {
    return `spares.${fields.spares.findIndex(({ model }) => model.trim() === second)}.${third ?? "model"}`;
  }
  // Of a list within a cell, such as the units of a group, the cell.
  const isRow = listNames.some((list) => list === first);
  return isRow ? [first, second, third].filter(Boolean).join(".") : path.map(String).join(".");
}

function takesAt(field: string, message: string): string {
  const figure = (fieldNamed as Readonly<Record<string, { readonly takes: string } | undefined>>)[field];
  if (figure !== undefined) return figure.takes;
  const name = field.split(".").at(-1) as string;
  if (field.startsWith("classes.")) return classCells.find((cell) => cell.name === name)?.takes ?? message;
  if (field.startsWith("periods.")) return periodTakes(name, message);
  const list = listNames.find((one) => field.startsWith(`${one}.`));
  const cell = list === undefined ? undefined : cellsOf(list).find((one) => one.name === name);
  if (cell === undefined) return message;
  return cell.empty === undefined ? `${cell.takes} Or remove the row.` : cell.takes;
}

const periodTakes = (name: string, message: string): string =>
  name.endsWith("Week")
    ? "A week from 1 to 53."
    : name.endsWith("Date") && !message.startsWith("The last day")
      ? "A day of the calendar."
      : message;

/** Engine models that have two rows: the document has one place for each. */
function namesakes({ spares }: WorkshopFields): Record<string, string> {
  const models = spares.map(({ model }) => model.trim());
  const twice = models.flatMap((model, i) => {
    const before = models.indexOf(model);
    const words = `Row ${before + 1} tells of ${model} already: tell both in one row.`;
    return before === i || model === "" ? [] : [[`spares.${i}.model`, words] as const];
  });
  const blank = models.flatMap((model, i) =>
    model === "" ? [[`spares.${i}.model`, "An engine model. Or remove the row."] as const] : [],
  );
  return Object.fromEntries([...twice, ...blank]);
}

/** Known to be complete: it was parsed by `workshopFieldsSchema`, whose shape is made of the same names. */
export const parsedFields = (given: z.infer<typeof workshopFieldsSchema>): WorkshopFields =>
  given as unknown as WorkshopFields;
