import type { SettingChange } from "../../../db/settings.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Settings } from "../../../lib/schema/settings.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { monthCountWords } from "../../../lib/wording.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { percentOf } from "./settings-fields.ts";

/** What each setting is called on the page and in the history. */
export const settingTitles = {
  fleetName: "Fleet’s name",
  timeZone: "Time zone",
  asOf: "As-of date",
  horizonYears: "Horizon",
  leadTimeMonths: "Planning lead time",
  togetherMonths: "Both repairs together within",
  planProbability: "Chance for plan",
  watchProbability: "Chance for watch",
  testIntervalDays: "Test interval by days",
  testIntervalKm: "Test interval by distance",
  testIntervalHours: "Test interval by hours",
  uploadLimitMb: "Largest file",
  testReadyHours: "Getting an engine ready for its tests",
  testCylinderMinutes: "Testing a cylinder",
} as const satisfies Record<keyof Settings, string>;

/** Decimals that a figure was entered with, at most 2. */
const digitsOf = (value: number): number => [0, 1].find((digits) => Number(value.toFixed(digits)) === value) ?? 2;

/** A setting's value in words. */
export function settingWords(f: Formats, name: keyof Settings, value: Settings[keyof Settings]): string {
  if (value === null) return name === "asOf" ? "today" : "none";
  if (typeof value === "string") return value === "" ? "none" : name === "asOf" ? f.date(value) : value;
  switch (name) {
    case "horizonYears":
      return `${f.number(value, digitsOf(value))} ${value === 1 ? "year" : "years"}`;
    case "leadTimeMonths":
    case "togetherMonths":
      return f.words(monthCountWords(value));
    case "planProbability":
    case "watchProbability":
      return f.percent(percentOf(value), digitsOf(percentOf(value)));
    case "testIntervalDays":
      return f.days(value);
    case "testReadyHours":
      return `${f.number(value, digitsOf(value))}\u00a0h`;
    case "testCylinderMinutes":
      return `${f.number(value, digitsOf(value))}\u00a0min`;
    case "testIntervalKm":
      return f.meter(value, "km", digitsOf(value));
    case "uploadLimitMb":
      return `${f.number(value)} MB`;
    default:
      return f.meter(value, "h", digitsOf(value));
  }
}

/** What a change was read as: each setting as it is and as it would be. */
export const readsOf = (f: Formats, current: Settings, patch: Partial<Settings>): readonly ChangeLine[] =>
  // Its keys are those of settings.
  (Object.keys(patch) as (keyof Settings)[]).map((name) => ({
    column: settingTitles[name],
    before: settingWords(f, name, current[name]),
    after: settingWords(f, name, { ...current, ...patch }[name]),
  }));

/** What the settings make of the fleet, in two sentences. */
export function settingsFinding(f: Formats, settings: Settings, asOf: IsoDate): string {
  const words = (name: keyof Settings) => settingWords(f, name, settings[name]);
  const date =
    settings.asOf === null
      ? `The fleet is told for today, ${f.date(asOf)} (${settings.timeZone})`
      : `The fleet is told as of ${f.date(asOf)}, a fixed date`;
  return `${date}. A repair is planned from a chance of ${words("planProbability")} on, and a unit watched from ${words("watchProbability")}, to meet a limit within ${words("leadTimeMonths")}.`;
}

/** Said where the form holds a value out of the history. */
export const putBackWords = (f: Formats, { name, before }: Pick<SettingChange, "name" | "before">): string =>
  `${settingTitles[name]} is filled in as it was before: ${settingWords(f, name, before)}. It is not in force yet.`;
