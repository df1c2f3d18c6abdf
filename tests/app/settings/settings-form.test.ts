import { describe, expect, test } from "vitest";
import { settingTitles, settingWords } from "@/app/_ui/settings/setting-words.ts";
import {
  changedFields,
  fieldNames,
  fieldOf,
  putBackFields,
  settingsFields,
} from "@/app/_ui/settings/settings-fields.ts";
import { readSettingsFields, type SettingsFields } from "@/app/_ui/settings/settings-form.ts";
import { isTimeZone, timeZones } from "@/app/_ui/settings/time-zones.ts";
import { type Settings, settingsSchema } from "@/lib/schema/settings.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const defaults = settingsSchema.parse({});
const read = (changed: Partial<SettingsFields>, current: Settings = defaults) =>
  readSettingsFields(changed, current, { isTimeZone });
const problemsOf = (changed: Partial<SettingsFields>) => {
  const result = read(changed);
  return result.ok ? {} : result.problems;
};

describe("the form of the settings", () => {
  test("has a field and a title for each of them", () => {
    expect(Object.keys(fieldOf).sort()).toEqual(Object.keys(settingsSchema.shape).sort());
    expect([...fieldNames].sort()).toEqual(Object.values(fieldOf).sort());
    expect(Object.keys(settingTitles).sort()).toEqual(Object.keys(fieldOf).sort());
  });
  test("begins with what is in force and reads back to no change", () => {
    const odd = {
      ...defaults,
      watchProbability: 0.07,
      planProbability: 0.29,
      testIntervalKm: 30_000.5,
      asOf: "2026-08-31",
    };
    expect(settingsFields(odd)).toMatchObject({ watchPercent: "7", planPercent: "29", testIntervalKm: "30000.5" });
    expect(read(settingsFields(odd), odd)).toEqual({ ok: true, patch: {} });
  });
  test("takes thousands in groups where they can only be such, and refuses what may be read in two ways", () => {
    expect(read({ testIntervalKm: "1,030,000" })).toEqual({ ok: true, patch: { testIntervalKm: 1_030_000 } });
    expect(read({ testIntervalKm: "30 000" })).toEqual({ ok: true, patch: { testIntervalKm: 30_000 } });
    expect(problemsOf({ testIntervalKm: "30,000" })).toEqual({
      testIntervalKm: "“30,000” may be read as 30000 or as 30: write 30000 or 30.",
    });
  });
  test("reads what was typed by the viewer's decimal sign, and what it printed by its own", () => {
    const odd = { ...defaults, watchProbability: 0.07125 };
    const comma = (changed: Partial<SettingsFields>) => readSettingsFields(changed, odd, { isTimeZone, sign: "," });
    expect(comma({ planPercent: "33,125" })).toEqual({ ok: true, patch: { planProbability: 0.33125 } });
    expect(read({ planPercent: "33,125" }, odd).ok).toBe(false);
    expect(comma({ planPercent: "33.125" }).ok).toBe(false);
  });
  test("gives the settings that a change is of, and no others", () => {
    expect(read({ leadTimeMonths: "18", planPercent: "35,5" })).toEqual({
      ok: true,
      patch: { leadTimeMonths: 18, planProbability: 0.355 },
    });
    expect(read({ testIntervalDays: "365", testIntervalKm: "" })).toEqual({
      ok: true,
      patch: { testIntervalDays: 365 },
    });
    expect(read({ asOf: "" }, { ...defaults, asOf: "2026-08-31" })).toEqual({ ok: true, patch: { asOf: null } });
  });
  test("says beside each field why it is not taken", () => {
    const given = {
      leadTimeMonths: "6.5",
      horizonYears: "0",
      watchPercent: "",
      asOf: "31 Aug",
      testIntervalHours: "-5",
    };
    expect(problemsOf(given)).toEqual({
      leadTimeMonths: "Whole months from 1 to 120.",
      horizonYears: "Years from above 0 to 30.",
      watchPercent: "A chance from 0 to 100 %.",
      asOf: "A day of the calendar, or nothing for today.",
      testIntervalHours: "Hours above 0, or nothing for none.",
    });
    expect(problemsOf({ timeZone: "Atlantis/Port" })).toEqual({ timeZone: expect.stringContaining("choose one") });
    expect(problemsOf({ fleetName: "x".repeat(81) })).toEqual({ fleetName: "Up to 80 characters." });
  });
  test("takes no chance for plan below that for watch, whichever was changed", () => {
    const reason = { planPercent: expect.stringContaining("at least that for watch") };
    expect(problemsOf({ planPercent: "5" })).toEqual(reason);
    expect(problemsOf({ watchPercent: "31" })).toEqual(reason);
    expect(problemsOf({ watchPercent: "30" })).toEqual({});
  });
  test("knows which fields were changed, whatever blanks stand around them", () => {
    const base = settingsFields(defaults);
    expect(changedFields({ ...base, leadTimeMonths: " 12 ", fleetName: "X" }, base)).toEqual({ fleetName: "X" });
  });
  test("puts an old value back into its field", () => {
    expect(putBackFields({ name: "planProbability", before: 0.3 })).toEqual({ planPercent: "30" });
    expect(putBackFields({ name: "asOf", before: null })).toEqual({ asOf: "" });
    expect(putBackFields({ name: "testIntervalKm", before: 30_000 })).toEqual({ testIntervalKm: "30000" });
  });
});

describe("time zones", () => {
  test("UTC is the first of those to choose from, and all can tell a date", () => {
    const zones = timeZones();
    expect(zones[0]).toBe("UTC");
    expect(new Set(zones).size).toBe(zones.length);
    expect(zones.every(isTimeZone)).toBe(true);
    expect(isTimeZone("")).toBe(false);
  });
});

test("a setting's value in words", () => {
  const f = formatsOf(plainPreferences);
  const plain = (name: keyof Settings, value: Settings[keyof Settings]) =>
    settingWords(f, name, value).replaceAll("\u00a0", " ");
  expect(plain("leadTimeMonths", 1)).toBe("1 month");
  expect(plain("planProbability", 0.355)).toBe("35.5 %");
  expect(plain("watchProbability", 0.07)).toBe("7 %");
  expect(plain("horizonYears", 2.5)).toBe("2.5 years");
  expect(plain("asOf", null)).toBe("today");
  expect(plain("asOf", "2026-08-31")).toBe("31 Aug 2026");
  expect(plain("testIntervalKm", 30_000)).toBe("30,000 km");
  expect(plain("testIntervalDays", null)).toBe("none");
  expect(plain("fleetName", "")).toBe("none");
  expect(plain("timeZone", "Europe/Vienna")).toBe("Europe/Vienna");
});
