import { beforeAll, describe, expect, it } from "vitest";
import { bridgeBetween } from "@/app/_jobs/bridge-of.ts";
import { budgetAnew } from "@/app/_jobs/budget-anew.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import {
  bridgeTable,
  frozenTable,
  groupsTable,
  movesTable,
  scenariosTable,
  spansTable,
  spentTable,
  unitsTable,
} from "@/app/_ui/budget/budget-files.ts";
import { budgetNow } from "@/app/_ui/budget/budget-now.ts";
import { callsTable } from "@/app/_ui/causes/calls-file.ts";
import { toldCalls } from "@/app/_ui/causes/told-calls.ts";
import { issuesTable } from "@/app/_ui/changes/history-file.ts";
import { readCompareAddress } from "@/app/_ui/compare/address.ts";
import { bandTable, linesTable, ratesTable, standingsTable, testersTable } from "@/app/_ui/compare/compare-files.ts";
import { comparisonOf } from "@/app/_ui/compare/comparison-of.ts";
import { compareLines } from "@/app/_ui/compare/lines.ts";
import { depotsTable } from "@/app/_ui/depots/depots-file.ts";
import { enginesTable, fittingsTable } from "@/app/_ui/engines/engine-files.ts";
import {
  altitudesTable,
  depotChangesTable,
  importFilesTable,
  importsTable,
  settingsTable,
  versionsTable,
} from "@/app/_ui/history-files.ts";
import { modelsTable } from "@/app/_ui/models/models-file.ts";
import { versionRows } from "@/app/_ui/models/version-rows.ts";
import { limitsTable, readingsTable, scoresTable } from "@/app/_ui/record/track-record-files.ts";
import { notesTable, statusTable, testHistoryTable } from "@/app/_ui/recording/record-files.ts";
import { isReportTable, reportTables } from "@/app/_ui/unit/report-files.ts";
import { unitNames, unitReport } from "@/db/assessments.ts";
import { freezeBudget } from "@/db/budgets.ts";
import { unitIssues } from "@/db/changes.ts";
import { altitudeHistory, depotOverviews } from "@/db/depot-overview.ts";
import { changeDepot, depotHistory } from "@/db/depots.ts";
import { modelVersions, standingModel, standingModels, unitsByModel } from "@/db/engine-models.ts";
import { engineOf, enginePage, enginesOf } from "@/db/engines.ts";
import { listImports } from "@/db/imports.ts";
import { addNote, notesOf, setNoteWithdrawn } from "@/db/notes.ts";
import type { Scenario } from "@/db/scenarios.ts";
import { changeSettings, settingChanges } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { modelRates, testerComparisonsKept } from "@/db/unit-courses.ts";
import type { CsvTable } from "@/lib/outtake/csv-table.ts";
import type { BudgetBridge } from "@/lib/schema/bridge.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import { trackRecordOf } from "@/lib/track/record.ts";
import { reading, testFact } from "../lib/sealing/facts.ts";
import { backTestFacts, factsOf, madeUpTests } from "../lib/track/made-up-fleet.ts";
import { openDemoStore } from "./jobs/demo-store.ts";
import { now } from "./jobs/made-up-files.ts";

let store: Store;
let reports: readonly UnitReport[];

beforeAll(async () => {
  store = await openDemoStore();
  const units = await unitNames(store);
  reports = (await Promise.all(units.map((unit) => unitReport(store, unit)))).filter((report) => report !== null);
  return () => store.close();
}, 120_000);

/** The rows by their heads; every row has a cell for each. */
function records(table: CsvTable): Record<string, unknown>[] {
  expect(new Set(table.head).size).toBe(table.head.length);
  for (const row of table.rows) expect(row).toHaveLength(table.head.length);
  return table.rows.map((row) => Object.fromEntries(table.head.map((head, i) => [head, row[i]])));
}

const reportOf = (unit: string): UnitReport => {
  const found = reports.find(({ assessment }) => assessment.unit === unit);
  if (found === undefined) throw new Error(`the demo has no ${unit}`);
  return found;
};

describe("the tables of a unit's page", () => {
  it("of tests have a row for each reading, latest first, as entered and as made comparable", () => {
    for (const report of reports) {
      const rows = records(reportTables.tests(report));
      expect(rows).toHaveLength(report.tests.reduce((sum, { entered }) => sum + entered.length, 0));
      const dates = rows.map((row) => String(row["test_date"]));
      expect(dates).toEqual(dates.toSorted().reverse());
    }
    const report = reportOf("V-109");
    const [first] = records(reportTables.tests(report));
    const test = report.tests.find((t) => t.date === first?.["test_date"] && t.measure === first["test"]);
    const entered = test?.entered.find(({ cylinder }) => cylinder === first?.["cylinder"]);
    expect(first).toMatchObject({
      value: entered?.value,
      value_unit: entered?.valueUnit,
      meter: test?.meter,
      heard_at: entered?.heardAt.join("+"),
    });
    expect(first?.["made_into"]).toBeCloseTo(entered?.referred ?? Number.NaN, 3);
  });

  it("of repairs and checks have all that are on file", () => {
    for (const report of reports) {
      expect(records(reportTables.repairs(report))).toHaveLength(report.repairs.length);
      expect(records(reportTables.checks(report)).map((row) => row["remarks"])).toEqual(
        report.checks.map(({ remarks }) => remarks),
      );
    }
    expect(reports.flatMap(({ repairs }) => repairs)).not.toEqual([]);
    expect(reports.flatMap(({ checks }) => checks)).not.toEqual([]);
  });

  it("of windows tell both classes of repair and every judged measure", () => {
    const report = reportOf("V-109");
    const rows = records(reportTables.windows(report));
    expect(rows.slice(0, 2).map((row) => row["place"])).toEqual(["top-end", "bottom-end"]);
    expect(rows[0]).toMatchObject({ likely_p50: report.assessment.repairs.topEnd.date.p50, level: null });
    const judged = report.assessment.cylinders.flatMap(({ measures }) => measures.filter((m) => m.crossing !== null));
    expect(rows.slice(2).map((row) => row["level"])).toEqual(judged.map(({ level }) => level));
  });

  it("of use and of chances have every span and month", () => {
    const report = reportOf("V-109");
    expect(records(reportTables.use(report)).map((row) => row["from"])).toEqual(
      report.use.spans.map(({ from }) => from).reverse(),
    );
    expect(records(reportTables["past-limit"](report))).toEqual(
      report.pastLimit.map(({ date, topEnd, bottomEnd }) => ({ by: date, top_end: topEnd, bottom_end: bottomEnd })),
    );
    expect(report.pastLimit.length).toBeGreaterThan(12);
  });

  it("go by their own names alone", () => {
    expect(["tests", "windows", "past-limit"].every(isReportTable)).toBe(true);
    expect(["constructor", "toString", "__proto__", ""].some(isReportTable)).toBe(false);
  });

  it("of forecasts tell why each differs; the first is the first", async () => {
    const [row, ...others] = records(issuesTable(await unitIssues(store, "V-109", 50)));
    expect(row).toMatchObject({ why: "first forecast", band: reportOf("V-109").assessment.band });
    expect(others).toEqual([]);
  });
});

describe("the tables of engines", () => {
  it("tell where each is and was", async () => {
    const { rows: engines, total } = await enginePage(store, { search: "", page: 1, pageSize: 500 });
    const rows = records(enginesTable(engines));
    expect(rows).toHaveLength(total);
    expect(rows.find((row) => row["engine"] === "QD6-4315")).toMatchObject({ now_in: "H-305" });
    expect(rows.find((row) => row["engine"] === "QD6-4327")).toMatchObject({ now_in: null });
  });

  it("tell an engine's stays, and a unit's engines", async () => {
    const engine = await engineOf(store, "QD6-4315");
    if (engine === null) throw new Error("the demo has no such engine");
    const xNow = reportOf("H-305").xNow;
    const stays = records(fittingsTable([engine], { xNow }));
    expect(stays.map((row) => row["unit"])).toEqual(engine.fittings.map(({ unit }) => unit).reverse());
    expect(stays[0]?.["wear_meter_at_end"]).toBeCloseTo(xNow, 0);
    const here = records(fittingsTable(await enginesOf(store, "H-305"), { unit: "H-305", xNow }));
    expect(new Set(here.map((row) => row["unit"]))).toEqual(new Set(["H-305"]));
    expect(here.length).toBeGreaterThan(1);
  });
});

describe("the tables of Compare", () => {
  it("have every standing, the band and the readings drawn", async () => {
    const view = readCompareAddress({ unit: ["V-104", "V-102"], of: "each" });
    const { of, sisters } = await comparisonOf(store, view);
    if (of === null) throw new Error("nothing to compare");
    expect(sisters.map(({ unit }) => unit)).toEqual(["V-104", "V-102"]);
    expect(records(standingsTable(of)).map((row) => row["unit"])).toEqual(of.standings.map(({ unit }) => unit));
    const band = of.bands.find((b) => b.stretches.length > 0) ?? null;
    expect(band).not.toBeNull();
    const points = records(bandTable(of, band));
    expect(points).toHaveLength(band?.stretches.flat().length ?? -1);
    for (const { p10, p90 } of points) expect(Number(p10)).toBeLessThanOrEqual(Number(p90));
    expect(records(bandTable(of, null))).toEqual([]);
    const lines = records(linesTable(of, compareLines(sisters, view)));
    expect(new Set(lines.map((row) => row["unit"]))).toEqual(new Set(["V-104", "V-102"]));
  });

  it("have every group of rates and every instrument", async () => {
    const models = await modelRates(store, "leak-down");
    const rates = records(ratesTable(models, { measure: "leak-down", of: "middle" }));
    expect(rates).toHaveLength(models.flatMap((model) => model.rates.middle).length);
    expect(rates.filter((row) => row["depot"] === "all")).not.toEqual([]);
    for (const { p50, each } of rates) expect(p50 === null).toBe(each !== null);
    const kept = await testerComparisonsKept(store);
    const testers = records(testersTable(kept));
    expect(testers.map((row) => row["instrument"])).toEqual(
      kept.flatMap((comparison) => comparison.testers.map(({ instrument }) => instrument)),
    );
    expect(testers).not.toEqual([]);
  });
});

describe("the lists of the house", () => {
  it("of depots tell where each lies, its units by band, and what it has to work with", async () => {
    const depots = await depotOverviews(store);
    const rows = records(depotsTable(depots));
    expect(rows.map((row) => row["depot"])).toEqual(depots.map(({ depot }) => depot));
    const highcol = rows.find((row) => row["depot"] === "Highcol");
    const here = reports.filter(({ depot, status }) => depot === "Highcol" && status !== "retired");
    expect(highcol).toMatchObject({ altitude_m: 1850, units: here.length, retired: "no" });
    const past = here.filter(({ assessment }) => assessment.band === "past-limit");
    expect(highcol?.["units_past_limit"]).toBe(past.length);
    expect(rows.reduce((sum, row) => sum + Number(row["units_past_limit"]), 0)).toBeGreaterThan(0);
    expect(String(highcol?.["periods"])).toMatch(/^(peak|closed), weeks \d/);
  });

  it("of engine models tell what each is judged by, and its units by band", async () => {
    const models = await standingModels(store);
    const rows = records(modelsTable(models, await unitsByModel(store)));
    expect(rows.map((row) => row["engine_model"])).toEqual(models.map(({ id }) => id));
    const petrol = models.find(({ id }) => id === "petrol-4-a");
    expect(rows.find((row) => row["engine_model"] === "petrol-4-a")).toMatchObject({
      cylinders: 4,
      neighbours: "1-2; 2-3; 3-4",
      compression_minimum_kpa: petrol?.compression?.minimumKpa,
      leakage_limit_percent: petrol?.leakDown?.limitPercent,
      top_end_labour_hours: petrol?.repairs?.topEnd?.labourHours,
      retired: "no",
      units: reports.filter(({ model }) => model.id === "petrol-4-a").length,
    });
    expect(rows.reduce((sum, row) => sum + Number(row["units"]), 0)).toBe(reports.length);
  });

  it("of engine models tell every way to put an engine right", async () => {
    const [model] = await standingModels(store);
    const work = { labourHours: 1, parts: 2, machining: 3, downtimeDays: 4, bayDays: 5, leadDays: 6 };
    const repairs = { topEnd: { ...work, unplannedFactor: 1.5 }, both: work, exchange: { ...work, leadDays: 7 } };
    const [row] = records(modelsTable(model === undefined ? [] : [{ ...model, repairs }], []));
    expect(row).toMatchObject({
      ...{ top_end_machining: 3, top_end_bay_days: 5, top_end_lead_days: 6, top_end_unplanned_factor: 1.5 },
      ...{ bottom_end_machining: null, both_labour_hours: 1, both_machining: 3, exchange_parts: 2 },
      ...{ exchange_downtime_days: 4, exchange_lead_days: 7 },
    });
  });
});

describe("the tables of the Track record and of calls", () => {
  const test = backTestFacts(factsOf(madeUpTests({ engines: 12, seed: 5, start: 22 })));

  it("have every forecast of a reading, and what came", () => {
    const rows = records(readingsTable(test.levels));
    expect(rows).toHaveLength(test.levels.length);
    const [first] = test.levels;
    expect(rows[0]).toMatchObject({
      unit: first?.unit,
      told_on: first?.made,
      came_on: first?.came,
      reading: first?.reading,
      level_unit: "%",
      p10: first?.told.borecast?.[1],
      p50: first?.told.borecast?.[3],
      p90: first?.told.borecast?.[5],
    });
    expect(rows.some((row) => row["reason"] !== null)).toBe(true);
  });

  it("have every forecast of a limit, and how far it was followed", () => {
    const rows = records(limitsTable(test.limits));
    expect(rows).toHaveLength(test.limits.length);
    expect(rows.filter((row) => row["met_on"] !== null)).toHaveLength(
      test.limits.filter(({ metOn }) => metOn !== null).length,
    );
    expect(rows.some((row) => row["met_on"] !== null)).toBe(true);
    expect(rows[0]).toMatchObject({ limit: 30, level_unit: "%", within_365_days: test.limits[0]?.within.borecast[1] });
  });

  it("have the figures of the page, in all and by what they are told apart by", () => {
    const record = trackRecordOf(test, null);
    const rows = records(scoresTable(record));
    const own = rows.filter((row) => row["forecast"] === "borecast");
    expect(new Set(own.map((row) => row["by"]))).toEqual(new Set(["all", "ahead", "model", "tester", "depot"]));
    const { outcomes, readings, coverage } = record.levels[0]?.overall.borecast ?? {};
    expect(own[0]).toMatchObject({ by: "all", group: "all", outcomes, readings, held_80: coverage?.["80"].held });
  });

  it("have every cylinder that was opened, with what was called the day before", async () => {
    const models = await toldCalls(store);
    const calls = models.flatMap((model) => model.calls);
    const rows = records(callsTable(models));
    expect(rows.map((row) => row["repair_date"])).toEqual(calls.map((call) => call.case.date));
    expect(rows.map((row) => row["called_class"])).toEqual(calls.map(({ called }) => called?.class ?? null));
    expect(rows.filter((row) => row["outcome"] === "right")).toHaveLength(calls.filter(({ right }) => right).length);
    expect(rows.length).toBeGreaterThan(0);
  });
});

describe("what people recorded of a unit", () => {
  const told = { by: "R. Ames", at: "2026-09-01T10:00:00.000Z" };

  it("as notes tells each with its day, its author, and who withdrew it", async () => {
    await addNote(store, "V-109", { text: "=1+1\nsmokes", date: "2026-08-30" }, told);
    const id = await addNote(store, "V-109", { text: "of another", date: "2026-08-31" }, told);
    await setNoteWithdrawn(store, { id, withdrawn: true }, { ...told, by: "L. Second" });
    expect(records(notesTable(await notesOf(store, "V-109")))).toEqual([
      {
        unit: "V-109",
        date: "2026-08-31",
        ...told,
        note: "of another",
        withdrawn_by: "L. Second",
        withdrawn_at: told.at,
      },
      { unit: "V-109", date: "2026-08-30", ...told, note: "=1+1\nsmokes", withdrawn_by: null, withdrawn_at: null },
    ]);
  });

  it("as its status and the history of a test tells who, when, why and what was undone", () => {
    const status = { importId: "a", status: "stopped", reason: "gearbox", ...told, undoneBy: "L. Second" } as const;
    expect(records(statusTable([status]))).toEqual([
      { ...told, status: "stopped", reason: "gearbox", import: "a", undone_by: "L. Second" },
    ]);
    const step = { ...told, rank: 1, from: "a.csv", undoneBy: null, undoneAt: null };
    const test = testFact({ meter: 8100, readings: [reading({ value: 1080.5, valueUnit: "kPa" })] });
    const rows = testHistoryTable([
      { ...step, kind: "told", importId: "a", takeChanges: false, whole: false, test },
      {
        ...step,
        ...{ kind: "judged", importId: "b", cylinder: null, verdict: "set-aside", reason: "hose leaked" },
        ...{ judgedBy: "R. Ames", toldAs: null, undoneBy: "L. Second", undoneAt: "2026-09-02T10:00:00.000Z" },
      } as const,
    ]);
    expect(records(rows)).toEqual([
      expect.objectContaining({
        import: "b",
        why: "hose leaked",
        undone_by: "L. Second",
        undone_at: "2026-09-02T10:00:00.000Z",
      }),
      expect.objectContaining({ ...told, import: "a", what: "entered from a.csv", undone_by: null }),
    ]);
  });
});

describe("the histories", () => {
  const told = { by: "=R. Ames", at: "2026-09-01T10:00:00.000Z" };

  it("of settings tell what each was and became", async () => {
    await changeSettings(store, { leadTimeMonths: 18 }, told);
    const [row] = records(settingsTable(await settingChanges(store, { limit: 500 })));
    expect(row).toEqual({ ...told, setting: "leadTimeMonths", was: 12, became: 18 });
  });

  it("of a depot tell what it had, and its altitudes", async () => {
    const before = await depotHistory(store, "Highcol");
    const setup = {
      bays: 3,
      technicians: 4,
      productiveHoursPerDay: 6.5,
      daysPerWeek: 6,
      builders: 2,
      labourRate: 61.5,
      retired: false,
      periods: [
        { kind: "peak", repeat: "yearly", firstWeek: 46, lastWeek: 8, remarks: null } as const,
        {
          kind: "closed",
          repeat: "once",
          firstDate: "2026-12-24",
          lastDate: "2026-12-31",
          remarks: "holidays",
        } as const,
      ],
    };
    await changeDepot(store, "Highcol", setup, { ...told, after: before[0]?.id ?? null });
    const rows = records(depotChangesTable(await depotHistory(store, "Highcol")));
    expect(rows).toHaveLength(before.length + 1);
    expect(rows[0]).toMatchObject({
      ...told,
      bays: 3,
      days_per_week: 6,
      builders: 2,
      labour_rate: 61.5,
      retired: "no",
      periods: "peak, weeks 46 to 8; closed, 2026-12-24 to 2026-12-31 (holidays)",
    });
    expect(records(altitudesTable(await altitudeHistory(store, "Highcol")))).toEqual([
      expect.objectContaining({ by: "demo", altitude_m: 1850, undone_by: null }),
    ]);
  });

  it("of an engine model tell figure by figure what became", async () => {
    const versions = await modelVersions(store, "petrol-4-a");
    const rows = records(
      versionsTable(versionRows(versions, await standingModel(store, "petrol-4-a"), { date: (date) => date })),
    );
    expect(rows.length).toBeGreaterThan(5);
    for (const row of rows) expect(row).toMatchObject({ by: "demo", was: null, in_force: "yes", version: 1 });
  });

  it("of imports tell each with its files and what became of their rows", async () => {
    const imports = await listImports(store);
    const [row] = records(importsTable(imports));
    expect(row).toMatchObject({ by: "demo", state: "committed", refused: imports[0]?.refusedRows });
    const [first] = imports;
    if (first === undefined) throw new Error("the demo was not imported");
    const files = records(importFilesTable(first));
    expect(files.map((file) => file["file"])).toContain("engine-models.json");
    expect(files.reduce((sum, file) => sum + Number(file["new"]), 0)).toBe(first.newRows);
  });
});

describe("the tables of the budget", () => {
  const told = { by: "=R. Ames", at: now.toISOString() };
  const view = { year: null, frozen: null };
  const sum = (rows: readonly Record<string, unknown>[], of: string) =>
    rows.reduce((total, row) => total + Math.round(100 * Number(row[of] ?? 0)), 0);

  beforeAll(async () => {
    await budgetAnew(store, { by: told.by, now }, {}, inThisThread);
  }, 120_000);

  it("of spans have every month, quarter and fiscal year, and each adds up to the same whole", async () => {
    const kept = await budgetNow(store, view);
    if (kept === null) throw new Error("no budget was drawn");
    const rows = records(spansTable(kept.row.document));
    const wholes = ["month", "quarter", "fiscal-year"].map((kind) =>
      sum(
        rows.filter((row) => row["kind"] === kind),
        "expected",
      ),
    );
    expect(new Set(wholes).size).toBe(1);
    const units = records(unitsTable(kept.row.document));
    expect(sum(units, "expected")).toBe(wholes[0]);
    for (const parts of [
      ["planned", "unplanned"],
      ["labour", "parts", "machining", "damage", "downtime"],
      ["top_end", "bottom_end", "both", "exchange"],
    ])
      expect(parts.reduce((total, of) => total + sum(units, of), 0)).toBe(wholes[0]);
  });

  it("of groups part the fleet by depots, classes, models and tests, each adding up to it", async () => {
    const kept = await budgetNow(store, view);
    if (kept === null) throw new Error("no budget was drawn");
    const rows = records(groupsTable(kept.told, kept.told));
    const whole = rows.filter((row) => row["partition"] === "fleet");
    expect(sum(whole, "unplanned")).toBeGreaterThan(0);
    for (const partition of new Set(rows.map((row) => row["partition"]))) {
      const groups = rows.filter((row) => row["partition"] === partition);
      for (const of of ["spent", "expected", "planned", "unplanned", "frozen_year_expected"]) {
        expect(sum(groups, of), `${String(partition)} ${of}`).toBe(sum(whole, of));
        expect(groups.every((row) => row[of] !== null)).toBe(true);
      }
    }
    const few = rows.find((row) => row["name"] === "Never tested or too few tests");
    expect(few).toMatchObject({ partition: "tests" });
    expect(Number(few?.["expected"])).toBeGreaterThan(0);
    const spent = records(spentTable(kept.head));
    expect(spent).toHaveLength(kept.head.repairs.length);
    expect(spent.length).toBeGreaterThan(0);
  });

  it("of a bridge tell each step with its units, and add up from the frozen budget to today's", async () => {
    const today = await budgetNow(store, view);
    await freezeBudget(store, { seen: today?.row.id ?? 0, name: "=Board" }, told);
    const kept = await budgetNow(store, view);
    if (kept?.was == null) throw new Error("no budget was frozen");
    expect(records(frozenTable(kept.frozen))[0]).toMatchObject({ name: "=Board", frozen_by: told.by });
    const ends = { was: kept.was.row, now: kept.row, year: kept.told.drawn.name };
    const bridge = (await bridgeBetween(store, ends, {}, inThisThread)) as BudgetBridge;
    const rows = records(bridgeTable(bridge, kept.told.currency));
    expect(rows[0]).toMatchObject({ step: "frozen", unit: null });
    expect(rows.at(-1)).toMatchObject({ step: "today", unit: null });
    expect(rows.filter((row) => row["unit"] === null)).toHaveLength(bridge.steps.length + 2);
  }, 60_000);

  it("of what-ifs tell base and change by year, and what each moves", () => {
    const year = { name: "2026", expected: 100, p50: 50, p80: 80, p95: 95, unplanned: 10, downtime: 20, failures: 0.4 };
    const move = { unit: "V-1", from: null, to: { scope: "both", start: "2026-10-05" }, pastLimit: null } as const;
    const result = {
      asOf: "2026-08-31",
      currency: "EUR",
      seed: 1,
      draws: 10_000,
      base: [year],
      scenario: [year],
      bought: 0,
      moves: [move],
    };
    const scenario: Scenario = {
      id: 1,
      name: "=Less",
      change: { kind: "use", percent: -10 },
      ...told,
      told: { madeAt: told.at, basis: "", result },
    };
    const rows = records(scenariosTable([scenario, { ...scenario, told: null }]));
    expect(rows.map((row) => [row["of"], row["expected"], row["failures"]])).toEqual([
      ["base", 1, 0.4],
      ["scenario", 1, 0.4],
    ]);
    expect(records(movesTable([scenario]))).toEqual([
      {
        what_if: "=Less",
        unit: "V-1",
        base_repair: null,
        base_start: null,
        repair: "both",
        start: "2026-10-05",
        past_limit_by_base_start: null,
      },
    ]);
  });
});
