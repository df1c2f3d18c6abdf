import { z } from "zod";
import { overlapOf } from "../../../lib/depot-calendar.ts";
import { blankDepotSetup, buildersProblem, type DepotSetup, depotSetupSchema } from "../../../lib/schema/depot.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";
import { depotFields, depotFigures } from "./depot-fields.ts";

const typed = z.string().max(400);

const mostPeriods = 60;

export const periodFieldsSchema = z.object({
  key: z.number(),
  kind: z.enum(["peak", "closed"]),
  repeat: z.enum(["yearly", "once"]),
  firstWeek: typed,
  lastWeek: typed,
  firstDate: typed,
  lastDate: typed,
  remarks: typed,
});

/** The form of a depot: everything as it was typed. `key` tells the rows of periods apart. */
export const depotFieldsSchema = z.object({
  bays: typed,
  technicians: typed,
  productiveHoursPerDay: typed,
  daysPerWeek: typed,
  builders: typed,
  labourRate: typed,
  retired: z.boolean(),
  periods: z
    .array(periodFieldsSchema)
    // A form of that many rows is no form that a person filled in.
    .max(10 * mostPeriods),
});
export type DepotFields = z.infer<typeof depotFieldsSchema>;
export type PeriodFields = DepotFields["periods"][number];

/**
 * Reads the form. Either all of it holds, or each field that does not has its reason. `seen`: what the form was printed
 * from; a figure that stands as it was printed, with a point for everybody, is read so. `sign`: the viewer's.
 */
export function readDepotFields(
  fields: DepotFields,
  { seen = blankDepotSetup, sign: viewers = "." }: { readonly seen?: DepotSetup; readonly sign?: DecimalSign } = {},
): { readonly ok: true; readonly setup: DepotSetup } | { readonly ok: false; readonly problems: FieldProblems } {
  if (fields.periods.length > mostPeriods) {
    return { ok: false, problems: { periods: `A calendar may have up to ${mostPeriods} periods.` } };
  }
  const printed = depotFields(seen);
  const signOf = (name: unknown) => (isFigure(name) && fields[name] === printed[name] ? "." : viewers);
  const figure = (name: Figure) => figureOf(fields[name], signOf(name));
  const given = {
    bays: figure("bays"),
    technicians: figure("technicians"),
    productiveHoursPerDay: figure("productiveHoursPerDay"),
    daysPerWeek: figure("daysPerWeek"),
    builders: figure("builders"),
    labourRate: figure("labourRate"),
    retired: fields.retired,
    periods: fields.periods.map(({ kind, repeat, remarks, ...period }) => ({
      kind,
      remarks: remarks.trim() === "" ? null : remarks,
      repeat,
      ...(repeat === "once"
        ? { firstDate: period.firstDate, lastDate: period.lastDate }
        : { firstWeek: figureOf(period.firstWeek, viewers), lastWeek: figureOf(period.lastWeek, viewers) }),
    })),
  };
  const parsed = depotSetupSchema.safeParse(given);
  if (!parsed.success) {
    const problems: Record<string, string> = {};
    for (const { path, message } of parsed.error.issues) {
      const name = path.join(".");
      problems[name] ??=
        figureProblem(typedAt(fields, path), signOf(path[0])) ?? reasonFor(String(path.at(-1)), message);
    }
    return { ok: false, problems };
  }
  const builders = buildersProblem(parsed.data.builders, parsed.data.technicians);
  if (builders !== null) return { ok: false, problems: { builders } };
  const overlap = overlapOf(parsed.data.periods);
  if (overlap === null) return { ok: true, setup: parsed.data };
  const [first, second] = overlap;
  const reason = `Lies over period ${first + 1}. Only a closing between dates may lie within peak weeks.`;
  return { ok: false, problems: { [`periods.${second}`]: reason } };
}

type Figure = (typeof depotFigures)[number];
const isFigure = (name: unknown): name is Figure => depotFigures.some((figure) => figure === name);

/** What was typed into a field; empty where the path leads to no field. */
function typedAt(fields: DepotFields, path: readonly PropertyKey[]): string {
  const [first, index, name] = path;
  const period = first === "periods" && typeof index === "number" ? fields.periods[index] : undefined;
  const text: unknown = period === undefined ? fields[first as keyof DepotFields] : period[name as keyof PeriodFields];
  return typeof text === "string" ? text : "";
}

/** What a field takes; the schema's own words are those of a program. */
const takes: Readonly<Record<string, string>> = {
  bays: "A whole number from 0 to 500, or nothing where it is not known.",
  technicians: "A whole number from 0 to 5,000, or nothing where it is not known.",
  productiveHoursPerDay: "Hours from 0 to 24, or nothing where it is not known.",
  daysPerWeek: "A whole number from 1 to 7, or nothing where it is not known.",
  builders: "A whole number from 0 to 5,000, or nothing where it is not known.",
  labourRate: "An amount from 0 to 1,000,000,000, or nothing for the fleet’s.",
  firstWeek: "A week from 1 to 53.",
  lastWeek: "A week from 1 to 53.",
  firstDate: "A day of the calendar.",
};

function reasonFor(field: string, message: string): string {
  if (field === "lastDate" && message.startsWith("The last day")) return message;
  return field === "lastDate" ? "A day of the calendar." : (takes[field] ?? message);
}
