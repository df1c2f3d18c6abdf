import { noCurrency } from "../../../lib/schema/currency.ts";
import type { Workshop } from "../../../lib/schema/workshop.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { enteredDecimals, listWords } from "../../../lib/wording.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { periodWords } from "../depots/depot-words.ts";
import { percentOf } from "../settings/settings-fields.ts";
import { classFields, type Field, fieldSets } from "./field-sets.ts";

const noBreak = "\u00a0";

const figureWords = (f: Formats, value: number): string => f.number(value, enteredDecimals(value));

/** "January" … "December", as the first month of a fiscal year. */
export const monthNames = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** A figure of the document in words: "3 % a year", "60 an hour", "July". */
function valueWords(f: Formats, { kind, unit, empty }: Field, value: unknown): string {
  if (value === null || value === undefined) return empty ?? "none";
  if (kind === "date") return f.date(String(value));
  if (kind === "month") return monthNames[Number(value) - 1] ?? String(value);
  if (typeof value !== "number") return String(value);
  const figure = figureWords(f, kind === "share" ? percentOf(value) : value);
  return unit === undefined ? figure : `${figure}${noBreak}${unit}`;
}

/** Every figure and row of a document: what it is called, and what it says. A name may stand in several lines. */
export function workshopLines(f: Formats, workshop: Workshop): readonly (readonly [what: string, says: string])[] {
  const figures = Object.values(fieldSets).flatMap(({ legend, fields }) =>
    fields.map(
      (field) => [`${legend}: ${lower(field.label)}`, valueWords(f, field, at(workshop, field.name))] as const,
    ),
  );
  const classes = Object.entries(workshop.unitClasses).flatMap(([unitClass, told]) =>
    classFields.flatMap((field) => {
      const value = told[field.name];
      return value === undefined
        ? []
        : [[`Class ${unitClass}: ${lower(field.label)}`, valueWords(f, field, value)] as const];
    }),
  );
  return [
    ...figures,
    ...classes,
    ...workshop.anyDepot.periods.map((period) => ["Any depot’s workshop: calendar", periodWords(f, period)] as const),
    ...workshop.peaks.map(
      ({ unitClass, firstWeek, lastWeek, what }) =>
        [
          `Peak weeks of class ${unitClass}`,
          `${firstWeek === lastWeek ? `week ${firstWeek}` : `weeks ${firstWeek} to ${lastWeek}`} of every year${said(what)}`,
        ] as const,
    ),
    ...Object.entries(workshop.spares).map(
      ([model, { count, turnaroundWeeks }]) =>
        [`Spare engines of ${model}`, `${f.number(count)}, built again in ${weeks(f, turnaroundWeeks)}`] as const,
    ),
    ...workshop.groups.map(
      ({ name, units, mostOut }) => [`Group ${name}`, `${listWords(units)}, at most ${f.number(mostOut)} out`] as const,
    ),
    ...workshop.otherWork.map(
      ({ unit, date, days, what }) =>
        [`Other work of ${unit}`, `${f.date(date)}, ${figureWords(f, days)} days${said(what)}`] as const,
    ),
    ...workshop.taken.map(
      ({ depot, date, bayDays, hours, what }) =>
        [
          `Taken at ${depot}`,
          `${f.date(date)}, ${figureWords(f, bayDays)} bay days, ${figureWords(f, hours)}${noBreak}h${said(what)}`,
        ] as const,
    ),
  ];
}

const lower = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);
const weeks = (f: Formats, count: number): string => `${f.number(count)} ${count === 1 ? "week" : "weeks"}`;
const said = (what: string): string => (what === "" ? "" : ` (${what})`);

const at = (workshop: Workshop, path: string): unknown =>
  path.split(".").reduce<unknown>((of, part) => (of as Readonly<Record<string, unknown>>)[part], workshop);

/** What differs between two documents, line by line; what stands in one of them alone is "none" in the other. */
export function workshopChanges(f: Formats, before: Workshop, after: Workshop): readonly ChangeLine[] {
  const [was, is] = [byName(workshopLines(f, before)), byName(workshopLines(f, after))];
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((column) => {
    const line = { column, before: was.get(column) ?? "none", after: is.get(column) ?? "none" };
    return line.before === line.after ? [] : [line];
  });
}

function byName(lines: ReturnType<typeof workshopLines>): ReadonlyMap<string, string> {
  const of = new Map<string, string>();
  for (const [what, says] of lines) of.set(what, of.has(what) ? `${of.get(what)}; ${says}` : says);
  return of;
}

/** What a plan and a budget reckon with, in two sentences. */
export function workshopFinding(f: Formats, workshop: Workshop): string {
  const { currency, labourRate, labourGrowthPercent, partsGrowthPercent, planWeeks, budgetMonths } = workshop;
  const first = monthNames[workshop.fiscalYearStartMonth - 1];
  const hour =
    currency === noCurrency ? figureWords(f, labourRate) : `${currency}${noBreak}${figureWords(f, labourRate)}`;
  const growth = (percent: number) => f.percent(percent, enteredDecimals(percent));
  const money = currency === noCurrency ? "No currency is named" : `Money is in ${currency}`;
  return `${money}; an hour of labour costs ${hour}, and grows by ${growth(labourGrowthPercent)} a year, parts by ${growth(partsGrowthPercent)}. Plans run for ${weeks(f, planWeeks)}, budgets for ${f.number(budgetMonths)} months, fiscal years from ${first} on.`;
}
