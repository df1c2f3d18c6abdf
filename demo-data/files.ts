import { addDays, addMonths, daysBetween } from "../lib/calendar.ts";
import {
  checkColumns,
  depotColumns,
  longColumns,
  meterColumns,
  repairColumns,
  unitColumns,
} from "../lib/schema/rows.ts";
import { csvText, type Row } from "./csv.ts";
import { engineModelFile, modelNamed } from "./engine-models.ts";
import { fleetOf } from "./fleet.ts";
import { workshopFile } from "./money.ts";
import { altitudeM, asOf, type Depot, firstDay, type UnitPlan } from "./plan.ts";
import { meterOf, randomOf, yearsWorked } from "./use.ts";
import { rowsOf } from "./workshop.ts";

const depots = Object.keys(altitudeM) as Depot[];

/** What each has to work with, and its ISO weeks, first and last, both included. A closed span may run over the turn of the year. */
const depotWeeks = {
  Lowmarsh: { bays: 2, technicians: 4, productiveHoursPerDay: 6, peakWeeks: [[26, 34]], closedWeeks: [] },
  Midfell: { bays: 1, technicians: 2, productiveHoursPerDay: 6, peakWeeks: [], closedWeeks: [] },
  Highcol: { bays: 1, technicians: 2, productiveHoursPerDay: 6, peakWeeks: [], closedWeeks: [[46, 8]] },
};

/** All files of the demo by name, made from one number: the same number gives the same bytes. */
export function demoFiles(seed: number): ReadonlyMap<string, string> {
  const fleet = fleetOf(seed);
  const tests = fleet.flatMap((plan) => testRows(plan, seed));
  const isPump = (row: Row) => String(row["unit"]).startsWith("P-");
  const isAircraft = (row: Row) => String(row["unit"]).startsWith("A-");
  const files = new Map<string, string>([
    ["engine-models.json", json(engineModelFile)],
    ["settings.json", json({ fleetName: "Quillmere District Works", timeZone: "UTC", asOf, depots: depotWeeks })],
    ["workshop.json", json(workshopFile(depotWeeks))],
    [
      "depots.csv",
      csvText(
        Object.keys(depotColumns),
        depots.map((depot) => ({ depot, altitude_m: altitudeM[depot] })),
      ),
    ],
    ["units.csv", csvText(Object.keys(unitColumns), fleet.map(unitRow))],
    [
      "repairs.csv",
      csvText(
        Object.keys(repairColumns),
        fleet.flatMap((plan) => repairRows(plan, seed)),
      ),
    ],
    [
      "meters.csv",
      csvText(
        Object.keys(meterColumns),
        fleet.flatMap((plan) => meterRows(plan, seed)),
      ),
    ],
    [
      "checks.csv",
      csvText(
        Object.keys(checkColumns),
        fleet.flatMap((plan) => checkRows(plan, seed)),
      ),
    ],
    ["tests-aircraft.csv", csvText(usedColumns(tests.filter(isAircraft)), tests.filter(isAircraft))],
    ["tests-pumps.csv", wideText(tests.filter(isPump))],
  ]);
  for (const depot of depots) {
    const rows = tests.filter((row) => row["depot"] === depot && !isPump(row) && !isAircraft(row));
    files.set(`tests-${depot.toLowerCase()}.csv`, csvText(usedColumns(rows), rows));
  }
  return files;
}

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** Columns of the long layout that at least one row fills, in the contract's order. */
function usedColumns(rows: readonly Row[]): string[] {
  return Object.keys(longColumns).filter((name) => rows.some((row) => (row[name] ?? "") !== ""));
}

function testRows(plan: UnitPlan, seed: number): Row[] {
  const meter = meterOf(plan, seed);
  const use = yearsWorked(plan, seed);
  const random = randomOf(plan.unit, "readings", seed);
  return plan.occasions.flatMap((occasion) => {
    const engine = plan.engines.findLast(({ from }) => from <= occasion.date);
    if (engine === undefined) throw new Error(`${plan.unit} has no engine on ${occasion.date}`);
    const { date } = occasion;
    return rowsOf({ plan, occasion, truth: engine.truth, meter: meter(date), years: use(date), random });
  });
}

/** Cells that differ from cylinder to cylinder. The wide layout has no place for the order of testing or first strokes. */
const perCylinder = new Set(["cylinder", "value", "heard_at", "order", "first_stroke"]);

/** The rows of each test as one, with a column for each cylinder. */
function wideText(rows: readonly Row[]): string {
  const wide = new Map<string, Record<string, string | number>>();
  for (const row of rows) {
    const key = [row["unit"], row["test_date"], row["test"], row["attempt"]].join();
    const known = wide.get(key) ?? Object.fromEntries(Object.entries(row).filter(([name]) => !perCylinder.has(name)));
    wide.set(key, known);
    known[`cyl_${row["cylinder"]}`] = row["value"] ?? "";
    if ((row["heard_at"] ?? "") !== "") known[`heard_${row["cylinder"]}`] = row["heard_at"] ?? "";
  }
  const all = [...wide.values()];
  const numbered = (name: string) => Array.from({ length: 8 }, (_, i) => `${name}_${i + 1}`);
  const shared = usedColumns(all);
  return csvText([...shared, ...numbered("cyl"), ...numbered("heard")], all);
}

function unitRow(plan: UnitPlan): Row {
  // Into service when its meter read 0, had it always worked as it does now.
  const since = addDays(firstDay, -Math.round((365.25 * plan.startMeter) / plan.yearly));
  return {
    unit: plan.unit,
    engine_model: modelNamed(plan.model).id,
    meter_unit: plan.meterUnit,
    depot: plan.depot,
    class: plan.class,
    in_service_date: since,
    in_service_meter: 0,
    engine_serial: plan.engines.at(-1)?.truth.serial ?? "",
    status: "in-service",
    ...(plan.disposalDate === undefined ? {} : { disposal_date: plan.disposalDate }),
  };
}

function repairRows(plan: UnitPlan, seed: number): Row[] {
  const meter = meterOf(plan, seed);
  return plan.repairs.map((repair) => ({
    unit: plan.unit,
    repair_date: repair.date,
    meter: meter(repair.date),
    scope: repair.scope,
    cylinders: repair.cylinders,
    found: repair.found?.join("+") ?? "",
    cost: repair.cost ?? "",
    labour_hours: repair.labourHours ?? "",
    downtime_days: repair.downtimeDays ?? "",
    engine_serial: repair.engineSerial ?? "",
    remarks: repair.remarks ?? "",
  }));
}

/** Readings when the unit is fuelled or serviced, one a quarter, and what a new meter gives. */
function meterRows(plan: UnitPlan, seed: number): Row[] {
  const meter = meterOf(plan, seed);
  const random = randomOf(plan.unit, "meter readings", seed);
  const rows: Row[] = [];
  const { newMeter } = plan;
  for (let month = 1; month < 36; month += 3) {
    const date = addDays(addMonths(firstDay, month), random.whole(0, 20));
    if (newMeter !== undefined && Math.abs(daysBetween(date, newMeter.date)) < 20) continue;
    rows.push({ unit: plan.unit, reading_date: date, meter: meter(date) });
  }
  if (newMeter !== undefined) {
    const { date, from, to, noted } = newMeter;
    rows.push({ unit: plan.unit, reading_date: addDays(date, -1), meter: from });
    rows.push({ unit: plan.unit, reading_date: date, meter: to, meter_reset: noted ? "yes" : "" });
  }
  return rows.toSorted((a, b) => (String(a["reading_date"]) < String(b["reading_date"]) ? -1 : 1));
}

function checkRows(plan: UnitPlan, seed: number): Row[] {
  const meter = meterOf(plan, seed);
  return plan.checks.map((check) => ({
    unit: plan.unit,
    check_date: check.date,
    meter: meter(check.date),
    cylinder: check.cylinder ?? "",
    check: check.check,
    result: check.result,
    value: check.value ?? "",
    value_unit: check.valueUnit ?? "",
    remarks: check.remarks ?? "",
  }));
}
