import type { SettingChange } from "../../../db/settings.ts";
import { type Settings, settingsSchema } from "../../../lib/schema/settings.ts";
import type { SettingsFields } from "./settings-form.ts";

export type FieldName = keyof SettingsFields;

/** The fields of the form, in its order. */
export const fieldNames = [
  "fleetName",
  "timeZone",
  "asOf",
  "leadTimeMonths",
  "watchPercent",
  "planPercent",
  "horizonYears",
  "togetherMonths",
  "testIntervalDays",
  "testIntervalKm",
  "testIntervalHours",
  "uploadLimitMb",
  "testReadyHours",
  "testCylinderMinutes",
] as const satisfies readonly FieldName[];

/** The field that shows each setting. */
export const fieldOf = {
  fleetName: "fleetName",
  timeZone: "timeZone",
  asOf: "asOf",
  horizonYears: "horizonYears",
  leadTimeMonths: "leadTimeMonths",
  togetherMonths: "togetherMonths",
  planProbability: "planPercent",
  watchProbability: "watchPercent",
  testIntervalDays: "testIntervalDays",
  testIntervalKm: "testIntervalKm",
  testIntervalHours: "testIntervalHours",
  uploadLimitMb: "uploadLimitMb",
  testReadyHours: "testReadyHours",
  testCylinderMinutes: "testCylinderMinutes",
} as const satisfies Record<keyof Settings, FieldName>;

const asText = (value: number | null): string => (value === null ? "" : String(value));

/** 0.07 as 7: per cent without what binary fractions leave behind. */
export const percentOf = (probability: number): number => Number((100 * probability).toFixed(6));

/** The settings as the form begins with them. An empty as-of date means today. */
export const settingsFields = (settings: Settings): SettingsFields => ({
  fleetName: settings.fleetName,
  timeZone: settings.timeZone,
  asOf: settings.asOf ?? "",
  horizonYears: asText(settings.horizonYears),
  leadTimeMonths: asText(settings.leadTimeMonths),
  togetherMonths: asText(settings.togetherMonths),
  watchPercent: asText(percentOf(settings.watchProbability)),
  planPercent: asText(percentOf(settings.planProbability)),
  testIntervalDays: asText(settings.testIntervalDays),
  testIntervalKm: asText(settings.testIntervalKm),
  testIntervalHours: asText(settings.testIntervalHours),
  uploadLimitMb: asText(settings.uploadLimitMb),
  testReadyHours: asText(settings.testReadyHours),
  testCylinderMinutes: asText(settings.testCylinderMinutes),
});

/** The fields that say otherwise than `base`. */
export function changedFields(fields: SettingsFields, base: SettingsFields): Partial<SettingsFields> {
  const names = fieldNames.filter((name) => fields[name].trim() !== base[name].trim());
  return Object.fromEntries(names.map((name) => [name, fields[name]]));
}

/** What puts a change back: the old value in its field. */
export function putBackFields({ name, before }: Pick<SettingChange, "name" | "before">): Partial<SettingsFields> {
  const field = fieldOf[name];
  return { [field]: settingsFields({ ...settingsSchema.parse({}), [name]: before })[field] };
}
