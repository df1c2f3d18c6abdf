import { readFileSync } from "node:fs";
import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";
import { assessmentHistory, dropReports, keepReports, keptAsOf, unitNames, unitReport } from "@/db/assessments.ts";
import { fleetOptions, fleetPage, fleetUnits } from "@/db/fleet.ts";
import { countUnits, fleetCounts, fleetGroups, plannedDue } from "@/db/fleet-counts.ts";
import { clearDerived } from "@/db/rebuild.ts";
import { openStore, type Store } from "@/db/store.ts";
import type { FleetQuery } from "@/lib/schema/report.ts";
import { query } from "./fleet-query.ts";
import { at, model, temporaryFile, temporaryStore } from "./made-up.ts";
import { crossed, projected, report } from "./made-up-report.ts";

const units = async (store: Store, more: Partial<FleetQuery>) =>
  (await fleetPage(store, query(more))).rows.map((row) => row.unit);

async function fleet(): Promise<Store> {
  const store = await temporaryStore();
  const bottomEnd = (crossing: ReturnType<typeof crossed>) => ({
    topEnd: projected("2030-01-01"),
    bottomEnd: crossing,
  });
  await keepReports(
    store,
    [
      report("V-10", { depot: "North", assessment: { band: "past-limit", repairs: bottomEnd(crossed("2026-06-30")) } }),
      report("V-2", {
        depot: "South",
        assessment: { band: "plan", repairs: bottomEnd(projected("2026-09-01", "2027-01-01")) },
      }),
      report("V-1", {
        depot: "South",
        testOverdue: true,
        nextTestDue: "2026-01-01",
        unitClass: "van",
        assessment: {
          band: "watch",
          lastTestDate: "2025-01-01",
          engineSerial: "ÄB_77",
          repairs: bottomEnd(projected("2026-08-01")),
        },
      }),
      report("W-3", {
        model: model({ id: "diesel-6", name: "Big six" }),
        assessment: {
          band: null,
          engineModel: "diesel-6",
          lastTestDate: null,
          questions: ["Was it repaired?", "When?"],
        },
      }),
      report("W-4", { assessment: { meter: { value: 1, unit: "km", perDay: 300 } } }),
    ],
    { because: "import", importId: "i1", at, version: 1 },
  );
  return store;
}

describe("sorting", () => {
  it.each([
    ["due", ["V-10", "V-2", "V-1", "W-3", "W-4"], ["V-1", "V-2", "V-10", "W-3", "W-4"]],
    ["unit", ["V-1", "V-2", "V-10", "W-3", "W-4"], ["W-4", "W-3", "V-10", "V-2", "V-1"]],
    ["band", ["V-10", "V-2", "V-1", "W-4", "W-3"], ["W-4", "V-1", "V-2", "V-10", "W-3"]],
    ["last-test", ["V-1", "V-2", "V-10", "W-4", "W-3"], ["V-2", "V-10", "W-4", "V-1", "W-3"]],
    ["use", ["V-1", "V-2", "V-10", "W-3", "W-4"], ["W-4", "V-1", "V-2", "V-10", "W-3"]],
    ["depot", ["V-10", "V-1", "V-2", "W-3", "W-4"], ["V-1", "V-2", "V-10", "W-3", "W-4"]],
    ["model", ["W-3", "V-1", "V-2", "V-10", "W-4"], ["V-1", "V-2", "V-10", "W-4", "W-3"]],
    ["class", ["V-1", "V-2", "V-10", "W-3", "W-4"], ["V-1", "V-2", "V-10", "W-3", "W-4"]],
    ["next-test", ["V-1", "V-2", "V-10", "W-3", "W-4"], ["V-1", "V-2", "V-10", "W-3", "W-4"]],
    ["top-chance", ["W-3", "W-4", "V-1", "V-2", "V-10"], ["V-1", "V-2", "V-10", "W-3", "W-4"]],
    ["bottom-chance", ["W-3", "W-4", "V-1", "V-2", "V-10"], ["V-10", "V-1", "V-2", "W-3", "W-4"]],
  ] as const)("by %s: what has nothing to sort by last, names between equals", async (sort, ascending, descending) => {
    const store = await fleet();
    // Nothing is foreseen for the two W units.
    expect(await units(store, { sort })).toEqual(ascending);
    expect(await units(store, { sort, descending: true })).toEqual(descending);
  });
});

it("counts a unit at plan without a likely date as due by its early one, else in a year", async () => {
  const store = await temporaryStore();
  const none = {
    ...projected("2026-09-01"),
    status: "not-foreseen" as const,
    date: { p10: null, p50: null, p90: null },
  };
  const made = (unit: string, band: "plan" | "watch" | "sound", likely: ReturnType<typeof projected>) =>
    report(unit, { assessment: { band, repairs: { topEnd: likely, bottomEnd: none } } });
  const reports = [
    made("A", "sound", projected("2029-01-01", "2030-01-01")),
    made("B", "plan", none),
    made("C", "plan", projected("2026-12-01", "2027-01-01")),
    made("D", "sound", none),
    made("E", "plan", projected("2028-01-01")),
    made("F", "plan", projected("2034-01-01", "2035-01-01")),
    made("G", "watch", projected("2026-10-01")),
  ];
  await keepReports(store, reports, { because: "import", at, version: 1 });
  expect(reports[0]?.asOf).toBe("2026-06-30");
  expect(await units(store, { sort: "due" })).toEqual(["C", "B", "E", "A", "F", "G", "D"]);
  expect(await units(store, { sort: "due", descending: true })).toEqual(["G", "F", "A", "E", "B", "C", "D"]);
});

describe("finding", () => {
  it.each([
    ["v-1", ["V-1", "V-10"]],
    ["äb_7", ["V-1"]],
    ["ab_7", []],
    ["_", ["V-1"]],
    ["%", []],
    ["south v-2", ["V-2"]],
    ["BIG six", ["W-3"]],
    ["cylinder 1", ["V-1", "V-2", "V-10", "W-3", "W-4"]],
    ["o'neill \\", []],
  ])("%s", async (search, expected) => {
    expect(await units(await fleet(), { search })).toEqual(expected);
  });

  it.each([
    [{ band: "plan" }, ["V-2"]],
    [{ band: "never-tested" }, ["W-3"]],
    [{ band: "overdue" }, ["V-1"]],
    [{ band: "question" }, ["W-3"]],
    [{ depot: "South" }, ["V-1", "V-2"]],
    [{ model: "diesel-6" }, ["W-3"]],
    [{ depot: "South", band: "plan", search: "v" }, ["V-2"]],
  ] as const)("by %o", async (filter, expected) => {
    expect(await units(await fleet(), filter)).toEqual(expected);
  });

  it("tells a page and how many there are in all", async () => {
    const store = await fleet();
    const { rows, total } = await fleetPage(store, query({ page: 2, pageSize: 2 }));
    expect([total, ...rows.map((row) => row.unit)]).toEqual([5, "V-10", "W-3"]);
    expect(await fleetPage(store, query({ page: 9 }))).toEqual({ rows: [], total: 5 });
  });
});

it("gives the row as the page shows it", async () => {
  const [row] = (await fleetPage(await fleet(), query({ search: "v-2" }))).rows;
  expect(row).toEqual({
    unit: "V-2",
    engineModel: "petrol-4-a",
    modelName: "Four in line",
    layout: "in-line",
    depot: "South",
    band: "plan",
    cylinderBands: ["plan"],
    placeTitle: "Cylinder 1",
    placeDetail: "sound",
    lastTestDate: "2026-03-01",
    testOverdue: false,
    questions: 0,
    perDay: 5,
    meterUnit: "h",
    meter: 1000,
    unitClass: null,
    status: "in-service",
    engineSerial: null,
    nextTestDue: null,
    topEndChance: 0.4,
    bottomEndChance: 0.4,
    topEnd: { status: "projected", p10: "2030-01-01", p50: null, p90: null },
    bottomEnd: { status: "projected", p10: "2026-09-01", p50: "2027-01-01", p90: null },
  });
});

it("counts the fleet and tells what it may be filtered by", async () => {
  const store = await fleet();
  const part = { search: "", depot: null, model: null };
  expect(await countUnits(store)).toBe(5);
  expect((await fleetCounts(store, { part, soonUntil: "2026-12-31" })).planSoon).toBe(0);
  expect(await fleetCounts(store, { part, soonUntil: "2027-06-30" })).toEqual({
    all: 5,
    byBand: { sound: 1, watch: 1, plan: 1, "past-limit": 1 },
    planSoon: 1,
    neverTested: 1,
    overdue: 1,
    questions: 1,
  });
  expect(await fleetOptions(store)).toEqual({
    depots: ["North", "South"],
    models: [
      { id: "diesel-6", name: "Big six" },
      { id: "petrol-4-a", name: "Four in line" },
    ],
  });
  expect(await unitNames(store)).toEqual(["V-1", "V-2", "V-10", "W-3", "W-4"]);
});

it("counts within a search, a depot and a model", async () => {
  const counts = await fleetCounts(await fleet(), {
    part: { search: "v-", depot: "South", model: "petrol-4-a" },
    soonUntil: "2027-06-30",
  });
  expect(counts).toEqual({
    all: 2,
    byBand: { sound: 0, watch: 1, plan: 1, "past-limit": 0 },
    planSoon: 1,
    neverTested: 0,
    overdue: 1,
    questions: 0,
  });
});

it("tells what falls due of the units at plan, by depot", async () => {
  const store = await fleet();
  const part = { search: "", depot: null, model: null };
  expect(await plannedDue(store, { part, soonUntil: "2026-12-31" })).toEqual([]);
  expect(await plannedDue(store, { part, soonUntil: "2027-01-01" })).toEqual([
    { depot: "South", dueDate: "2027-01-01" },
  ]);
  expect(await plannedDue(store, { part: { ...part, depot: "North" }, soonUntil: "2027-01-01" })).toEqual([]);
});

describe("groups", () => {
  const told = { pastLimit: 0, soon: 0 };

  it.each([
    ["depot", ["V-10", "V-1", "V-2", "W-3", "W-4"], ["V-10", "V-2", "V-1", "W-4", "W-3"]],
    ["model", ["W-3", "V-1", "V-2", "V-10", "W-4"], ["W-3", "W-4", "V-10", "V-2", "V-1"]],
    ["band", ["V-10", "V-2", "V-1", "W-4", "W-3"], ["V-10", "V-2", "V-1", "W-4", "W-3"]],
  ] as const)("by %s stand together, in an order of their own, also over pages", async (group, expected, downwards) => {
    const store = await fleet();
    expect(await units(store, { group })).toEqual(expected);
    const pages = [1, 2, 3].map((page) => units(store, { group, page, pageSize: 2 }));
    expect((await Promise.all(pages)).flat()).toEqual(expected);
    expect(await units(store, { group, descending: true })).toEqual(downwards);
  });

  it("are counted, with what is due in each", async () => {
    const store = await fleet();
    const soonUntil = "2027-06-30";
    expect(await fleetGroups(store, query(), { group: "depot", soonUntil })).toEqual([
      { ...told, key: "North", name: "North", units: 1, pastLimit: 1 },
      { ...told, key: "South", name: "South", units: 2, soon: 1 },
      { ...told, key: null, name: null, units: 2 },
    ]);
    expect(await fleetGroups(store, query({ band: "never-tested" }), { group: "model", soonUntil })).toEqual([
      { ...told, key: "diesel-6", name: "Big six", units: 1 },
    ]);
    expect((await fleetGroups(store, query(), { group: "band", soonUntil })).map(({ key }) => key)).toEqual([
      "past-limit",
      "plan",
      "watch",
      "sound",
      null,
    ]);
  });
});

it("gives every unit of a query, whatever page it asks for", async () => {
  const rows = await fleetUnits(await fleet(), query({ page: 2, pageSize: 2, sort: "band" }));
  expect(rows.map((row) => row.unit)).toEqual(["V-10", "V-2", "V-1", "W-4", "W-3"]);
});

it("a database from before the columns of class, serial and chance gets them filled from its reports", async () => {
  const file = temporaryFile();
  const before = await openStore(file);
  const told = report("V-1", {
    unitClass: "van",
    nextTestDue: "2026-09-01",
    assessment: {
      engineSerial: "QX-1",
      meter: { value: 8100, unit: "h", perDay: 5 },
      repairs: { topEnd: projected("2026-09-01"), bottomEnd: crossed("2026-06-30") },
    },
  });
  await keepReports(before, [told], { because: "import", at, version: 1 });
  const { rows } = await fleetPage(before, query());
  await before.close();
  const raw = new Database(file);
  for (const column of [
    "meter",
    "unit_class",
    "engine_serial",
    "next_test_due",
    "top_end_chance",
    "bottom_end_chance",
  ]) {
    raw.exec(`alter table fleet_rows drop column ${column}`);
  }
  const { entries } = JSON.parse(readFileSync("db/migrations/meta/_journal.json", "utf8")) as {
    entries: { tag: string; when: number }[];
  };
  const { when } = entries.find(({ tag }) => tag.endsWith("fleet_rows_of_more_columns"))!;
  expect(raw.prepare("delete from __drizzle_migrations where created_at = ?").run(when).changes).toBe(1);
  raw.close();
  expect((await fleetPage(await temporaryStore(file), query())).rows).toEqual(rows);
  expect(rows[0]).toMatchObject({ unitClass: "van", engineSerial: "QX-1", meter: 8100, topEndChance: 0.4 });
});

describe("reports", () => {
  it("come back as they were kept; a new one takes the place, the history keeps both", async () => {
    const store = await temporaryStore();
    const [old, fresh] = [report("V-1"), report("V-1", { asOf: "2026-07-01", finding: "Cylinder 1 leaks." })];
    await keepReports(store, [old], { because: "import", importId: "i1", at, version: 1 });
    await keepReports(store, [fresh], { because: "pool", at, version: 1 });
    expect(await unitReport(store, "V-1")).toEqual(fresh);
    expect(await unitReport(store, "V-2")).toBeNull();
    const history = await assessmentHistory(store, "V-1", 10);
    expect(history.map((row) => [row.asOf, row.because, row.importId])).toEqual([
      ["2026-07-01", "pool", null],
      ["2026-06-30", "import", "i1"],
    ]);
    expect(history[1]?.assessment).toEqual(old.assessment);
    expect(await assessmentHistory(store, "V-1", 1)).toHaveLength(1);
  });

  it("made from later facts by another process stay, whoever is ready last", async () => {
    const store = await temporaryStore();
    const [old, fresh] = [report("V-1"), report("V-1", { finding: "Cylinder 1 leaks." })];
    await keepReports(store, [fresh], { because: "import", at, version: 8 });
    await keepReports(store, [old, report("V-2")], { because: "import", at, version: 7 });
    await dropReports(store, ["V-1"], { because: "import", at, version: 7 });
    expect(await unitReport(store, "V-1")).toEqual(fresh);
    expect(await assessmentHistory(store, "V-1", 10)).toHaveLength(1);
    expect(await unitNames(store)).toEqual(["V-1", "V-2"]);
  });

  it("told anew because a day went by add nothing to the history", async () => {
    const store = await temporaryStore();
    await keepReports(store, [report("V-1")], { because: "import", at, version: 1 });
    await keepReports(store, [report("V-1", { asOf: "2026-07-01" })], { because: "day", at, version: 1 });
    expect(await keptAsOf(store)).toBe("2026-07-01");
    expect(await assessmentHistory(store, "V-1", 10)).toHaveLength(1);
  });

  it("name the oldest date that they are told for", async () => {
    const store = await temporaryStore();
    expect(await keptAsOf(store)).toBeNull();
    await keepReports(store, [report("V-1", { asOf: "2026-07-02" }), report("V-2")], {
      because: "rebuild",
      at,
      version: 1,
    });
    expect(await keptAsOf(store)).toBe("2026-06-30");
  });

  it("of units no longer known go, their history stays; so does a rebuild's clearing", async () => {
    const store = await temporaryStore();
    await keepReports(store, [report("V-1"), report("V-2"), report("V-3")], { because: "import", at, version: 1 });
    await dropReports(store, ["V-1"], { because: "undo", at, version: 1 });
    expect(await unitNames(store)).toEqual(["V-2", "V-3"]);
    await clearDerived(store, { at });
    expect(await unitNames(store)).toEqual([]);
    expect(await unitReport(store, "V-2")).toBeNull();
    for (const unit of ["V-1", "V-2"]) expect(await assessmentHistory(store, unit, 10)).toHaveLength(1);
  });
});

it("draws a window that the model alone foresees, but nothing is due by it and nothing changes by it", async () => {
  const store = await temporaryStore();
  const fewTests = {
    ...projected("2026-09-01"),
    status: "too-few-tests" as const,
    date: { p10: null, p50: null, p90: null },
  };
  const fromModel = {
    topEnd: { status: "too-few-tests", p10: "2026-09-01", p50: "2027-09-01", p90: null },
    bottomEnd: { status: "too-few-tests", p10: null, p50: null, p90: null },
  } as const;
  const made = (bottomEnd: ReturnType<typeof projected>) =>
    report("V-1", { fromModel, assessment: { repairs: { topEnd: fewTests, bottomEnd } } });
  await keepReports(store, [made(projected("2028-01-01"))], { because: "import", at, version: 1 });
  const [row] = (await fleetPage(store, query())).rows;
  expect(row).toMatchObject({ topEnd: fromModel.topEnd, bottomEnd: { status: "projected", p10: "2028-01-01" } });
  const [kept] = await store.q.select().from(store.fleetRows);
  expect(kept).toMatchObject({
    dueDate: "2028-01-01",
    duePlace: 2,
    topEndEarlyDay: null,
    topEndStatus: "too-few-tests",
  });
});
