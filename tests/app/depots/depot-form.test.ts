import { describe, expect, test } from "vitest";
import { blankPeriod, depotFields, followFields, sameFields } from "@/app/_ui/depots/depot-fields.ts";
import { type DepotFields, readDepotFields } from "@/app/_ui/depots/depot-form.ts";
import { blankDepotSetup, type DepotSetup } from "@/lib/schema/depot.ts";

const setup: DepotSetup = {
  bays: 2,
  technicians: 4,
  productiveHoursPerDay: 5.5,
  daysPerWeek: 6,
  builders: 2,
  labourRate: 61.5,
  retired: true,
  periods: [
    { kind: "peak", repeat: "yearly", firstWeek: 26, lastWeek: 34, remarks: "harvest" },
    { kind: "closed", repeat: "once", firstDate: "2026-12-21", lastDate: "2027-01-03", remarks: null },
  ],
};
const weeks = (firstWeek: string, lastWeek: string) => ({ ...blankPeriod(0, "yearly"), firstWeek, lastWeek });
const dates = (firstDate: string, lastDate: string) => ({ ...blankPeriod(0, "once"), firstDate, lastDate });
const problemsOf = (more: Partial<DepotFields>) => {
  const read = readDepotFields({ ...depotFields(blankDepotSetup), ...more });
  return read.ok ? {} : read.problems;
};

describe("a depot's form", () => {
  test("begins with what is told and reads back to the same", () => {
    expect(readDepotFields(depotFields(setup))).toEqual({ ok: true, setup });
    expect(readDepotFields(depotFields(blankDepotSetup))).toEqual({ ok: true, setup: blankDepotSetup });
  });
  test("takes a decimal comma, and nothing as not told", () => {
    expect(problemsOf({ productiveHoursPerDay: "5,5", labourRate: "61,25" })).toEqual({});
  });
  test("takes what it printed as it stands, whatever the viewer's decimal sign", () => {
    const odd = { ...setup, productiveHoursPerDay: 7.125 };
    expect(readDepotFields(depotFields(odd), { seen: odd, sign: "," })).toEqual({ ok: true, setup: odd });
    expect(readDepotFields(depotFields(odd), { sign: "," }).ok).toBe(false);
    const typed = readDepotFields({ ...depotFields(odd), productiveHoursPerDay: "7,375" }, { seen: odd, sign: "," });
    expect(typed.ok && typed.setup.productiveHoursPerDay).toBe(7.375);
    expect(readDepotFields({ ...depotFields(odd), productiveHoursPerDay: "7,375" }, { seen: odd }).ok).toBe(false);
  });
  test("says beside each field why it is not taken", () => {
    expect(problemsOf({ bays: "two", technicians: "-1", productiveHoursPerDay: "25" })).toEqual({
      bays: expect.stringContaining("0 to 500"),
      technicians: expect.stringContaining("0 to 5,000"),
      productiveHoursPerDay: expect.stringContaining("0 to 24"),
    });
    expect(problemsOf({ daysPerWeek: "8", builders: "1.5", labourRate: "a lot" })).toEqual({
      daysPerWeek: expect.stringContaining("1 to 7"),
      builders: expect.stringContaining("0 to 5,000"),
      labourRate: expect.stringContaining("0 to 1,000,000,000"),
    });
    expect(problemsOf({ technicians: "2", builders: "3" })).toEqual({
      builders: expect.stringContaining("write at most 2"),
    });
    expect(problemsOf({ technicians: "", builders: "3" })).toEqual({});
    expect(problemsOf({ periods: [weeks("0", "54"), weeks("", "2.5")] })).toEqual({
      "periods.0.firstWeek": "A week from 1 to 53.",
      "periods.0.lastWeek": "A week from 1 to 53.",
      "periods.1.firstWeek": "A week from 1 to 53.",
      "periods.1.lastWeek": "A week from 1 to 53.",
    });
    expect(problemsOf({ periods: [dates("2026-02-30", "")] })).toEqual({
      "periods.0.firstDate": "A day of the calendar.",
      "periods.0.lastDate": "A day of the calendar.",
    });
  });
  test("refuses a figure of two readings, and says both", () => {
    expect(problemsOf({ technicians: "1,400", periods: [weeks("1,200", "2")] })).toEqual({
      technicians: "“1,400” may be read as 1400 or as 1.4: write 1400 or 1.4.",
      "periods.0.firstWeek": "“1,200” may be read as 1200 or as 1.2: write 1200 or 1.2.",
    });
  });
  test("refuses dates the wrong way round, but takes weeks over the year's end", () => {
    expect(problemsOf({ periods: [dates("2026-05-02", "2026-05-01")] })).toEqual({
      "periods.0.lastDate": "The last day lies before the first.",
    });
    expect(problemsOf({ periods: [weeks("46", "8")] })).toEqual({});
    expect(problemsOf({ periods: [weeks("53", "53")] })).toEqual({});
  });
  test("refuses a period over another and names it", () => {
    expect(problemsOf({ periods: [weeks("46", "8"), weeks("20", "22"), weeks("8", "9")] })).toEqual({
      "periods.2": expect.stringMatching(/^Lies over period 1\./),
    });
  });
  test("says the same whatever keys its rows have", () => {
    const fields = depotFields(setup);
    const others = { ...fields, periods: fields.periods.map((period) => ({ ...period, key: period.key + 7 })) };
    expect(sameFields(fields, others)).toBe(true);
    expect(sameFields(fields, { ...others, bays: "3" })).toBe(false);
    expect(sameFields(fields, { ...others, periods: others.periods.slice(1) })).toBe(false);
  });
  test("follows what is kept where it was not touched, and tells where both were changed", () => {
    const told = depotFields(setup);
    const typed = { ...told, bays: "5" };
    const kept = { ...told, technicians: "9", periods: [] };
    expect(followFields({ typed, told, kept })).toEqual({ fields: { ...kept, bays: "5" }, conflict: false });
    const both = { ...kept, bays: "3" };
    expect(followFields({ typed, told, kept: both })).toEqual({ fields: { ...both, bays: "5" }, conflict: true });
    expect(followFields({ typed, told, kept: { ...kept, bays: "5" } }).conflict).toBe(false);
  });
});
