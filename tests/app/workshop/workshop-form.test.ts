import { describe, expect, test } from "vitest";
import { figureNames } from "@/app/_ui/workshop/field-sets.ts";
import {
  blankRow,
  followFields,
  newPeriod,
  sameFields,
  type WorkshopFields,
  workshopFields,
} from "@/app/_ui/workshop/workshop-fields.ts";
import { parsedFields, readWorkshopFields, workshopFieldsSchema } from "@/app/_ui/workshop/workshop-form.ts";
import { type Workshop, workshopSchema } from "@/lib/schema/workshop.ts";

const defaults = workshopSchema.parse({});
/** Something in every part of it. */
const full = workshopSchema.parse({
  currency: "EUR",
  priceDate: "2026-07-01",
  labourRate: 61.125,
  togetherLabourShare: 0.07,
  labourGrowthPercent: -1.5,
  anyDepot: {
    labourRate: 55,
    periods: [
      { kind: "closed", repeat: "yearly", firstWeek: 46, lastWeek: 8, remarks: "winter" },
      { kind: "peak", repeat: "once", firstDate: "2027-05-01", lastDate: "2027-05-02", remarks: null },
    ],
  },
  unitClasses: { van: { dayOff: 90.5 }, "heavy truck": { peakFactor: 3, failureExtra: 0 } },
  peaks: [{ unitClass: "mower", firstWeek: 46, lastWeek: 8, what: "" }],
  spares: { "petrol-4-a": { count: 2, turnaroundWeeks: 9 } },
  groups: [{ name: "Route 4", units: ["V-1", "V-2"], mostOut: 1 }],
  otherWork: [{ unit: "V-1", date: "2026-09-23", days: 1.5, what: "body" }],
  taken: [{ depot: "Highcol", date: "2026-09-23", bayDays: 2, hours: 10.5, what: "" }],
});
const read = (fields: WorkshopFields, seen: Workshop = defaults, sign: "." | "," = ".") =>
  readWorkshopFields(fields, { seen, sign });
const blank = workshopFields(defaults, ["van"]);
const problemsOf = (more: Partial<WorkshopFields>) => {
  const result = read({ ...blank, ...more });
  return result.ok ? {} : result.problems;
};
const figures = (more: Partial<WorkshopFields["figures"]>) => ({ figures: { ...blank.figures, ...more } });
/** Rows of a list with these cells, all others blank. */
function rows<List extends "spares" | "groups" | "otherWork" | "taken">(list: List, ...cells: object[]) {
  return { [list]: cells.map((own, key) => ({ ...blankRow(list, []), ...own, key })) } as Partial<WorkshopFields>;
}

describe("the form of prices and workshops", () => {
  test("begins with what is told and reads back to the same, whatever the viewer's decimal sign", () => {
    for (const workshop of [defaults, full]) {
      for (const sign of [".", ","] as const) {
        const fields = workshopFields(workshop, ["van", "mower"]);
        expect(read(fields, workshop, sign)).toEqual({ ok: true, workshop });
        // As a browser sends it.
        expect(parsedFields(workshopFieldsSchema.parse(JSON.parse(JSON.stringify(fields))))).toEqual(fields);
      }
    }
  });
  test("has a field for every figure of the document, and shows shares in per cent", () => {
    const paths = (value: unknown, place = ""): string[] =>
      typeof value === "object" && value !== null && !Array.isArray(value)
        ? Object.entries(value).flatMap(([name, part]) => paths(part, place === "" ? name : `${place}.${name}`))
        : [place];
    const lists = ["schemaVersion", "anyDepot.periods", "peaks", "groups", "otherWork", "taken", "pins"];
    expect([...figureNames].sort()).toEqual(
      paths(defaults)
        .filter((path) => !lists.includes(path))
        .sort(),
    );
    expect(workshopFields(full, []).figures.togetherLabourShare).toBe("7");
  });
  test("shows the classes that the fleet has, and those that were told", () => {
    expect(workshopFields(full, ["mower", "van"]).classes.map(({ unitClass }) => unitClass)).toEqual([
      "heavy truck",
      "mower",
      "van",
    ]);
  });
  test("reads what was typed by the viewer's decimal sign", () => {
    const comma = read({ ...blank, ...figures({ labourRate: "61,125", currency: " eur " }) }, defaults, ",");
    expect(comma).toMatchObject({ ok: true, workshop: { labourRate: 61.125, currency: "EUR" } });
    expect(problemsOf(figures({ labourRate: "61,125" }))).toEqual({
      labourRate: "“61,125” may be read as 61125 or as 61.125: write 61125 or 61.125.",
    });
  });
  test("says beside each figure what it takes", () => {
    expect(
      problemsOf(
        figures({
          currency: "euros",
          priceDate: "2026-02-30",
          planWeeks: "10",
          labourRate: "",
          togetherLabourShare: "101",
        }),
      ),
    ).toEqual({
      currency: expect.stringContaining("three capital letters"),
      priceDate: expect.stringContaining("day of the calendar"),
      planWeeks: "Whole weeks from 26 to 104.",
      labourRate: "An amount from 0 on.",
      togetherLabourShare: "From 0 to 100 %.",
    });
    expect(problemsOf(figures({ "anyDepot.builders": "3" }))).toEqual({
      "anyDepot.builders": expect.stringContaining("write at most 2,"),
    });
  });
  test("takes nothing of a class as that of any, and says what a class takes", () => {
    const [van = { unitClass: "van" }] = blank.classes;
    const classes = (more: object) => ({ classes: [{ ...van, ...more }] as WorkshopFields["classes"] });
    expect(read({ ...blank, ...classes({ dayOff: "0" }) })).toMatchObject({
      ok: true,
      workshop: { unitClasses: { van: { dayOff: 0 } } },
    });
    expect(problemsOf(classes({ peakFactor: "0.5" }))).toEqual({
      "classes.van.peakFactor": "A factor from 1 to 100, or nothing for that of any class.",
    });
  });
  test("takes units with commas between, and refuses groups of one name, of one unit, or with a unit twice", () => {
    const group = { name: "Route 4", units: "V-1,V-2 ; V-3", mostOut: "1" };
    expect(read({ ...blank, ...rows("groups", group) })).toMatchObject({
      ok: true,
      workshop: { groups: [{ name: "Route 4", units: ["V-1", "V-2", "V-3"], mostOut: 1 }] },
    });
    expect(problemsOf(rows("groups", group, { ...group, units: "V-4, V-5" }))).toEqual({
      "groups.1.name": "Group 1 is called Route 4 as well: give each group a name of its own.",
    });
    expect(problemsOf(rows("groups", { ...group, units: "V-1" }))).toEqual({
      "groups.0.units": expect.stringContaining("Two units or more"),
    });
    expect(problemsOf(rows("groups", { ...group, units: "V-1, V-1" }))).toEqual({
      "groups.0.units": "V-1 is named twice in the group Route 4: name it once.",
    });
  });
  test("takes rows with what may be left out, and says of others what they lack", () => {
    const given = {
      ...rows("spares", { model: "petrol-4-a", count: "1" }),
      ...rows("otherWork", { unit: "V-1", date: "2026-09-23", days: "0,5" }),
      ...rows("taken", { depot: "Highcol", date: "2026-09-23", hours: "8" }),
    };
    expect(read({ ...blank, ...given })).toMatchObject({
      ok: true,
      workshop: {
        spares: { "petrol-4-a": { count: 1, turnaroundWeeks: 12 } },
        otherWork: [{ days: 0.5, what: "" }],
        taken: [{ bayDays: 0, hours: 8 }],
      },
    });
    const model = { model: "petrol-4-a", count: "1" };
    expect(problemsOf(rows("spares", model, { ...model, count: "2" }, { count: "1" }))).toEqual({
      "spares.1.model": "Row 1 tells of petrol-4-a already: tell both in one row.",
      "spares.2.model": "An engine model. Or remove the row.",
    });
    expect(problemsOf(rows("otherWork", { unit: " ", date: "2026-09-23", days: "0" }))).toEqual({
      "otherWork.0.unit": "A unit. Or remove the row.",
      "otherWork.0.days": "Days above 0, up to 365. Or remove the row.",
    });
    expect(problemsOf(rows("taken", { depot: "Highcol", date: "", hours: "-1" }))).toEqual({
      "taken.0.date": "A day of the calendar. Or remove the row.",
      "taken.0.hours": "Hours from 0 to 100,000.",
    });
  });
  test("refuses periods of any depot that lie over each other, and what is no week", () => {
    const weeks = (firstWeek: string, lastWeek: string) => ({ ...newPeriod("yearly", []), firstWeek, lastWeek });
    expect(problemsOf({ periods: [weeks("46", "8"), weeks("8", "9")] })).toEqual({
      "periods.1": expect.stringMatching(/^Lies over period 1\./),
    });
    expect(problemsOf({ periods: [weeks("0", "54")] })).toEqual({
      "periods.0.firstWeek": "A week from 1 to 53.",
      "periods.0.lastWeek": "A week from 1 to 53.",
    });
  });
  test("is no form with another shape", () => {
    expect(workshopFieldsSchema.safeParse({ ...blank, groups: [{ key: 0 }] }).success).toBe(false);
    expect(workshopFieldsSchema.safeParse({ ...blank, figures: {} }).success).toBe(false);
  });
});

describe("a form that somebody else was quicker with", () => {
  const told = workshopFields(full, ["van"]);
  const typed = { ...told, figures: { ...told.figures, labourRate: "70" } };
  test("follows in what was not touched", () => {
    const kept = workshopFields({ ...full, planWeeks: 60, unitClasses: { van: { dayOff: 1 } } }, ["van"]);
    const { fields, conflict } = followFields({ typed, told, kept });
    expect(conflict).toBe(false);
    expect(fields.figures).toEqual({ ...kept.figures, labourRate: "70" });
    expect(fields.classes).toEqual(kept.classes);
  });
  test("stays as it was typed where both were changed, and tells", () => {
    const kept = workshopFields({ ...full, labourRate: 71, groups: [] }, ["van"]);
    const { fields, conflict } = followFields({ typed, told, kept });
    expect(conflict).toBe(true);
    expect([fields.figures.labourRate, fields.groups]).toEqual(["70", []]);
    const agreed = workshopFields({ ...full, labourRate: 70 }, ["van"]);
    expect(followFields({ typed, told, kept: agreed }).conflict).toBe(false);
  });
  test("says the same whatever keys its rows have", () => {
    const others = { ...told, groups: told.groups.map((row) => ({ ...row, key: row.key + 7 })) };
    expect(sameFields(told, others)).toBe(true);
    expect(sameFields(told, { ...others, groups: [] })).toBe(false);
    expect(sameFields(told, typed)).toBe(false);
  });
});
