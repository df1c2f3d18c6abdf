import { z } from "zod";
import { checkedSettingsSchema, type Settings } from "../../../lib/schema/settings.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";
import { fieldOf, settingsFields } from "./settings-fields.ts";

const typed = z.string().max(400);

/** The form of the settings: everything as it was typed. */
const settingsFieldsSchema = z.object({
  fleetName: typed,
  timeZone: typed,
  /** Empty: today. */
  asOf: typed,
  horizonYears: typed,
  leadTimeMonths: typed,
  togetherMonths: typed,
  watchPercent: typed,
  planPercent: typed,
  testIntervalDays: typed,
  testIntervalKm: typed,
  testIntervalHours: typed,
  uploadLimitMb: typed,
  testReadyHours: typed,
  testCylinderMinutes: typed,
});
export type SettingsFields = z.infer<typeof settingsFieldsSchema>;

/** What a person asks for: the fields that were changed, and the version of the settings that the person saw. */
export const askedSettingsSchema = z.object({ changed: settingsFieldsSchema.partial(), version: z.int() });
export interface AskedSettings {
  readonly changed: Partial<SettingsFields>;
  readonly version: number;
}

/** What a field takes; the schema's own words are those of a program. */
const takes: Readonly<Record<keyof SettingsFields, string>> = {
  fleetName: "Up to 80 characters.",
  timeZone: "A time zone by its name, such as Europe/Vienna or UTC: choose one of the list.",
  asOf: "A day of the calendar, or nothing for today.",
  horizonYears: "Years from above 0 to 30.",
  leadTimeMonths: "Whole months from 1 to 120.",
  togetherMonths: "Whole months from 1 to 60.",
  watchPercent: "A chance from 0 to 100 %.",
  planPercent: "A chance from 0 to 100 %.",
  testIntervalDays: "Whole days from 1 to 36,500, or nothing for none.",
  testIntervalKm: "A distance above 0, or nothing for none.",
  testIntervalHours: "Hours above 0, or nothing for none.",
  uploadLimitMb: "Whole megabytes from 1 to 2,000.",
  testReadyHours: "Hours from 0 to 100.",
  testCylinderMinutes: "Minutes from 0 to 600.",
};

/**
 * Reads the fields that a person changed, beside the settings as they are. Gives the settings that change by it, or why
 * fields are not taken. `isTimeZone`: whether this machine knows a zone;
 * `sign`: the viewer's decimal sign.
 */
export function readSettingsFields(
  changed: Partial<SettingsFields>,
  current: Settings,
  { isTimeZone, sign = "." }: { readonly isTimeZone: (name: string) => boolean; readonly sign?: DecimalSign },
): { readonly ok: true; readonly patch: Partial<Settings> } | { readonly ok: false; readonly problems: FieldProblems } {
  const fields: SettingsFields = { ...settingsFields(current), ...changed };
  // What was not changed stands as the form printed it.
  const signOf = (name: keyof SettingsFields) => (name in changed ? sign : ".");
  const figure = (name: keyof SettingsFields) => figureOf(fields[name], signOf(name));
  const share = (name: keyof SettingsFields) => {
    const percent = figure(name);
    return percent === null ? null : Number((percent / 100).toFixed(8));
  };
  const given: Record<keyof Settings, unknown> = {
    fleetName: fields.fleetName.trim(),
    timeZone: fields.timeZone.trim(),
    asOf: fields.asOf.trim() === "" ? null : fields.asOf.trim(),
    horizonYears: figure("horizonYears"),
    leadTimeMonths: figure("leadTimeMonths"),
    togetherMonths: figure("togetherMonths"),
    watchProbability: share("watchPercent"),
    planProbability: share("planPercent"),
    testIntervalDays: figure("testIntervalDays"),
    testIntervalKm: figure("testIntervalKm"),
    testIntervalHours: figure("testIntervalHours"),
    uploadLimitMb: figure("uploadLimitMb"),
    testReadyHours: figure("testReadyHours"),
    testCylinderMinutes: figure("testCylinderMinutes"),
  };
  const problems: Record<string, string> = {};
  const parsed = checkedSettingsSchema.safeParse(given);
  for (const { path, code, message } of parsed.error?.issues ?? []) {
    const field = fieldOf[path[0] as keyof Settings];
    problems[field] ??= figureProblem(fields[field], signOf(field)) ?? (code === "custom" ? message : takes[field]);
  }
  if ("timeZone" in changed && !isTimeZone(fields.timeZone.trim())) problems["timeZone"] = takes.timeZone;
  if (!parsed.success || Object.keys(problems).length > 0) return { ok: false, problems };
  const names = Object.keys(given) as (keyof Settings)[];
  const differs = names.filter((name) => parsed.data[name] !== current[name]);
  return { ok: true, patch: Object.fromEntries(differs.map((name) => [name, parsed.data[name]])) };
}
