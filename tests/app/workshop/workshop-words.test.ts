import { describe, expect, it } from "vitest";
import { workshopTable } from "@/app/_ui/history-files.ts";
import { workshopChanges, workshopFinding, workshopLines } from "@/app/_ui/workshop/workshop-words.ts";
import { workshopSchema } from "@/lib/schema/workshop.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";

const f = formatsOf(plainPreferences);
const plain = (words: string) => words.replaceAll("\u00a0", " ");
const defaults = workshopSchema.parse({});
const changed = workshopSchema.parse({
  currency: "EUR",
  priceDate: "2026-07-01",
  labourRate: 61.5,
  fiscalYearStartMonth: 7,
  togetherLabourShare: 0.07,
  unitClasses: { van: { dayOff: 90 } },
  spares: { "petrol-4-a": { count: 2, turnaroundWeeks: 1 } },
  groups: [{ name: "Route 4", units: ["V-1", "V-2"], mostOut: 1 }],
  otherWork: [
    { unit: "V-1", date: "2026-09-23", days: 1.5, what: "body" },
    { unit: "V-1", date: "2026-10-23", days: 2 },
  ],
  taken: [{ depot: "Highcol", date: "2026-09-23", bayDays: 2, hours: 10 }],
});

describe("prices and workshops in words", () => {
  it("say what a plan and a budget reckon with", () => {
    expect(plain(workshopFinding(f, defaults))).toBe(
      "No currency is named; an hour of labour costs 60, and grows by 3 % a year, parts by 4 %. Plans run for 52 weeks, budgets for 36 months, fiscal years from January on.",
    );
    expect(plain(workshopFinding(f, changed))).toMatch(
      /^Money is in EUR; an hour of labour costs EUR 61\.5, .* from July on\.$/,
    );
  });
  it("tell each change once, with its unit", () => {
    expect(
      workshopChanges(f, defaults, changed).map(({ column, before, after }) =>
        plain(`${column}: ${before} → ${after}`),
      ),
    ).toEqual([
      "Money: currency: XXX → EUR",
      "Money: prices as of: the day on which they are told → 1 Jul 2026",
      "Money: labour rate: 60 an hour → 61.5 an hour",
      "Budget: fiscal year begins in: January → July",
      "Plan: a top end then adds: 20 % of its labour → 7 % of its labour",
      "Class van: day out of service: none → 90 a day",
      "Spare engines of petrol-4-a: none → 2, built again in 1 week",
      "Group Route 4: none → V-1 and V-2, at most 1 out",
      "Other work of V-1: none → 23 Sep 2026, 1.5 days (body); 23 Oct 2026, 2 days",
      "Taken at Highcol: none → 23 Sep 2026, 2 bay days, 10 h",
    ]);
    expect(workshopChanges(f, changed, changed)).toEqual([]);
    expect(workshopLines(f, defaults).length).toBeGreaterThan(25);
  });
  it("are a table of their changes, value by value", () => {
    const at = "2026-09-01T08:00:00.000Z";
    const history = [
      { id: 2, by: "B", at, workshop: { ...changed, labourRate: 62 } },
      { id: 1, by: "A", at, workshop: { ...defaults, groups: changed.groups } },
    ];
    const { head, rows } = workshopTable(history);
    expect(head).toEqual(["at", "by", "what", "was", "became"]);
    expect(rows).toContainEqual([at, "B", "labourRate", 60, 62]);
    expect(rows).toContainEqual([at, "B", "unitClasses.van.dayOff", null, 90]);
    expect(rows.filter(([, by]) => by === "A")).toEqual([[at, "A", "groups", "[]", JSON.stringify(changed.groups)]]);
  });
});
