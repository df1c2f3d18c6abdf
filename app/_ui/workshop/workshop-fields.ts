import { blankDepotSetup } from "../../../lib/schema/depot.ts";
import type { Workshop } from "../../../lib/schema/workshop.ts";
import { blankPeriod, depotFields } from "../depots/depot-fields.ts";
import type { PeriodFields } from "../depots/depot-form.ts";
import { percentOf } from "../settings/settings-fields.ts";
import { type ClassField, classFields, type FigureName, fieldNamed, figureNames } from "./field-sets.ts";
import { type CellName, cellsOf, type ListName, listNames } from "./list-sets.ts";

/** A row of a list as it is typed; `key` tells rows apart while they are edited. */
export type RowFields<List extends ListName> = { readonly key: number } & Readonly<Record<CellName<List>, string>>;
export type ClassRow = { readonly unitClass: string } & Readonly<Record<ClassField, string>>;

/** The form of prices and workshops: everything as it was typed. */
export type WorkshopFields = {
  readonly figures: Readonly<Record<FigureName, string>>;
  readonly classes: readonly ClassRow[];
  /** Of any depot. */
  readonly periods: readonly PeriodFields[];
} & { readonly [List in ListName]: readonly RowFields<List>[] };

const asText = (value: unknown): string => (value === null || value === undefined ? "" : String(value));

/** What stands at a place of a document, such as "leadDays.topEnd". */
const valueAt = (workshop: Workshop, path: string): unknown =>
  path.split(".").reduce<unknown>((at, part) => (at as Readonly<Record<string, unknown>>)[part], workshop);

function printed(workshop: Workshop, name: FigureName): string {
  const value = valueAt(workshop, name);
  return asText(fieldNamed[name].kind === "share" ? percentOf(Number(value)) : value);
}

/** Prices and workshops as the form begins with them. `classes`: those that the fleet has, beside those that were told. */
export function workshopFields(workshop: Workshop, classes: readonly string[]): WorkshopFields {
  const { unitClasses, peaks, spares, groups, otherWork, taken } = workshop;
  const names = [...new Set([...classes, ...Object.keys(unitClasses)])].toSorted();
  const { periods } = depotFields({ ...blankDepotSetup, periods: workshop.anyDepot.periods });
  return {
    // Each name has its text.
    figures: Object.fromEntries(
      figureNames.map((name) => [name, printed(workshop, name)]),
    ) as WorkshopFields["figures"],
    classes: names.map((unitClass) => {
      const told = Object.hasOwn(unitClasses, unitClass) ? unitClasses[unitClass] : undefined;
      const texts = classFields.map(({ name }) => [name, asText(told?.[name])]);
      return { unitClass, ...(Object.fromEntries(texts) as Record<ClassField, string>) };
    }),
    periods,
    peaks: peaks.map(({ firstWeek, lastWeek, ...peak }, key) => ({
      key,
      ...peak,
      firstWeek: asText(firstWeek),
      lastWeek: asText(lastWeek),
    })),
    spares: Object.entries(spares).map(([model, { count, turnaroundWeeks }], key) => ({
      key,
      model,
      count: asText(count),
      turnaroundWeeks: asText(turnaroundWeeks),
    })),
    groups: groups.map(({ name, units, mostOut }, key) => ({
      key,
      name,
      units: units.join(", "),
      mostOut: asText(mostOut),
    })),
    otherWork: otherWork.map(({ days, ...work }, key) => ({ key, ...work, days: asText(days) })),
    taken: taken.map(({ bayDays, hours, ...rest }, key) => ({
      key,
      ...rest,
      bayDays: asText(bayDays),
      hours: asText(hours),
    })),
  };
}

/** A row to be filled in, below those of `rows`. */
export function blankRow(list: ListName, rows: readonly { readonly key: number }[]) {
  const cells = cellsOf(list).map(({ name }) => [name, ""]);
  return { key: nextKey(rows), ...(Object.fromEntries(cells) as Record<string, string>) };
}

export const newPeriod = (repeat: PeriodFields["repeat"], rows: readonly PeriodFields[]): PeriodFields =>
  blankPeriod(nextKey(rows), repeat);

const nextKey = (rows: readonly { readonly key: number }[]): number => 1 + Math.max(-1, ...rows.map(({ key }) => key));

/** Parts of the form that are told apart where two people change it at once. */
type Part = string;

/** The text of each part: each figure, each class, and each list as a whole. */
function textsOf(fields: WorkshopFields): ReadonlyMap<Part, string> {
  const bare = (rows: readonly { readonly key: number }[]) => JSON.stringify(rows.map(({ key: _, ...row }) => row));
  return new Map([
    ...figureNames.map((name) => [name, fields.figures[name].trim()] as const),
    ...fields.classes.map((row) => [`class ${row.unitClass}`, JSON.stringify(row)] as const),
    ["periods", bare(fields.periods)] as const,
    ...listNames.map((list) => [list, bare(fields[list])] as const),
  ]);
}

/** Whether two forms say the same; the keys of their rows do not count. */
export const sameFields = (a: WorkshopFields, b: WorkshopFields): boolean => differing(a, b).length === 0;

function differing(a: WorkshopFields, b: WorkshopFields): Part[] {
  const [of, other] = [textsOf(a), textsOf(b)];
  return [...new Set([...of.keys(), ...other.keys()])].filter((part) => of.get(part) !== other.get(part));
}

/**
 * A form after what is kept has changed from `told` to `kept`: parts that were not touched follow, the others stay as they
 * were typed. `conflict`: a part was touched here and changed there, to something else.
 */
export function followFields({
  typed,
  told,
  kept,
}: {
  readonly typed: WorkshopFields;
  readonly told: WorkshopFields;
  readonly kept: WorkshopFields;
}): { readonly fields: WorkshopFields; readonly conflict: boolean } {
  const touched = new Set(differing(typed, told));
  const list = <Name extends ListName | "periods">(name: Name) => (touched.has(name) ? typed[name] : kept[name]);
  const figures = figureNames.map((name) => [name, (touched.has(name) ? typed : kept).figures[name]]);
  const fields: WorkshopFields = {
    figures: Object.fromEntries(figures) as WorkshopFields["figures"],
    classes: kept.classes.map(
      (row) =>
        typed.classes.find(({ unitClass }) => unitClass === row.unitClass && touched.has(`class ${unitClass}`)) ?? row,
    ),
    periods: list("periods"),
    peaks: list("peaks"),
    spares: list("spares"),
    groups: list("groups"),
    otherWork: list("otherWork"),
    taken: list("taken"),
  };
  const elsewhere = new Set(differing(kept, typed));
  const conflict = differing(kept, told).some((part) => touched.has(part) && elsewhere.has(part));
  return { fields, conflict };
}
