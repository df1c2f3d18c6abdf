import { describe, expect, it } from "vitest";
import { reconcileUnit, type UnitBefore } from "@/lib/intake/reconcile-unit.ts";
import type { RowIssue } from "@/lib/schema/intake.ts";
import { csvOf, goodRow, models, readText } from "./read-text.ts";

type Row = Readonly<Record<string, string>>;
interface Files {
  readonly tests?: readonly Row[];
  readonly units?: readonly Row[];
  readonly meters?: readonly Row[];
  readonly repairs?: readonly Row[];
  readonly checks?: readonly Row[];
}

/** Rows of the unit V-1 through the reader and the rules. */
async function reconcile(files: Files, before: UnitBefore | null = null) {
  const none = { tests: [], units: [], meterReadings: [], repairs: [], checks: [], judgements: [] };
  const read = async (rows: readonly Row[] | undefined, file: string) =>
    rows === undefined ? none : readText(csvOf(rows.map((r) => ({ unit: "V-1", ...r }))), { file });
  const { tests } = await read(
    files.tests?.map((r) => ({ ...goodRow, ...r })),
    "tests.csv",
  );
  const { units } = await read(files.units, "units.csv");
  const { meterReadings } = await read(files.meters, "meters.csv");
  const { repairs } = await read(files.repairs, "repairs.csv");
  const { checks } = await read(files.checks, "checks.csv");
  const result = reconcileUnit(
    { unit: "V-1", units, tests, meterReadings, repairs, checks, judgements: [] },
    before,
    models,
  );
  return {
    ...result,
    words: result.issues.map((i) => `${i.file}: ${i.words}`),
    severities: result.issues.map((i) => i.severity),
    readings: result.accepted.tests.flatMap((t) => t.readings.map((r) => [t.date, t.test, r.cylinder, r.value])),
  };
}
const before: UnitBefore = { engineModel: "four", meterUnit: "km", meterReadings: [], judgements: [] };

it("tells of every row of a unit, however many are refused", () => {
  const meterReadings = Array.from({ length: 200_000 }, (_, i) => ({
    unit: "V-1",
    date: "2026-01-10",
    meter: 1,
    meterReset: false,
    file: "meters.csv",
    line: i + 2,
  }));
  const rows = { unit: "V-1", units: [], tests: [], meterReadings, repairs: [], checks: [], judgements: [] };
  expect(reconcileUnit(rows, null, models).issues).toHaveLength(200_000);
  expect(reconcileUnit(rows, before, models).accepted.meterReadings).toHaveLength(1);
});

describe("a new unit", () => {
  it("needs an engine model on one row of any test, or in the list of units", async () => {
    const rows = [{ engine_model: "" }, { cylinder: "2", engine_model: "" }];
    expect((await reconcile({ tests: rows })).words).toEqual([
      'tests.csv: line 2, engine_model: the unit "V-1" is new; engine_model must be given in one of its tests or in the list of units',
      'tests.csv: line 3, engine_model: the unit "V-1" is new; engine_model must be given in one of its tests or in the list of units',
    ]);
    expect((await reconcile({ tests: [rows[0] ?? {}, { cylinder: "2" }] })).readings).toHaveLength(2);
    expect((await reconcile({ tests: rows, units: [{ engine_model: "four" }] })).readings).toHaveLength(2);
    expect((await reconcile({ tests: rows }, before)).readings).toHaveLength(2);
  });
  it("is not made by a repair, a meter reading or a check", async () => {
    const { words, accepted } = await reconcile({ meters: [{ reading_date: "2026-01-01", meter: "5" }] });
    expect(words).toEqual([
      'meters.csv: line 2, unit: the unit "V-1" is not known; add it to the list of units, with its engine_model',
    ]);
    expect(accepted.meterReadings).toEqual([]);
  });
});

describe("one unit", () => {
  it("keeps the meter unit of its earliest test", async () => {
    const rows = [{ test_date: "2026-04-01", meter_unit: "mi" }, { test_date: "2026-01-01" }];
    const { words, meterUnit } = await reconcile({ tests: rows });
    expect(meterUnit).toBe("km");
    expect(words).toEqual([
      'tests.csv: line 2, meter_unit: the unit "V-1" keeps its meter in km, not mi; one unit keeps one meter unit',
    ]);
  });
  it("keeps the meter unit of the list, and that of the store before all", async () => {
    expect((await reconcile({ tests: [{}], units: [{ engine_model: "four", meter_unit: "h" }] })).readings).toEqual([]);
    const { words, readings } = await reconcile(
      { tests: [{}], units: [{ engine_model: "four", meter_unit: "h" }] },
      before,
    );
    expect(readings).toHaveLength(1);
    expect(words).toEqual([expect.stringMatching(/^units.csv: line 2, meter_unit/)]);
  });
  it("has the cylinders of its engine and no others", async () => {
    const { words, readings } = await reconcile({
      tests: [{ engine_model: "single" }, { engine_model: "single", cylinder: "2" }],
      repairs: [{ repair_date: "2026-01-01", meter: "1", scope: "top-end", cylinders: "1+2" }],
      checks: [{ check_date: "2026-01-01", check: "borescope", result: "clear", cylinder: "3" }],
    });
    expect(readings).toHaveLength(1);
    expect(words).toEqual([
      "checks.csv: line 2, cylinder: cylinder 3 does not exist; the engine single has one cylinder",
      "repairs.csv: line 2, cylinders: cylinder 2 does not exist; the engine single has one cylinder",
      "tests.csv: line 3, cylinder: cylinder 2 does not exist; the engine single has one cylinder",
    ]);
  });
  it("takes an improbable compression with a warning, from above 3 times the new value on", async () => {
    const compression = { test: "compression-dry", value_unit: "kPa" };
    const { severities, words, readings } = await reconcile({
      tests: [
        { ...compression, value: "3750" },
        { ...compression, cylinder: "2", value: "3751" },
      ],
    });
    expect(readings).toHaveLength(2);
    expect(severities).toEqual(["warning"]);
    expect(words[0]).toContain("line 3, value: 3751 kPa is more than 3 times what this engine has when new (1250 kPa)");
  });
  it("described with a status and without one has the one told", async () => {
    const units = [
      { engine_model: "four", status: "stopped" },
      { engine_model: "four", status: "" },
    ];
    expect((await reconcile({ units })).accepted.units).toMatchObject([{ status: "stopped" }]);
  });
  it("described twice: blanks give way, the lowest value and the most final status are taken with a warning", async () => {
    const units = [
      { engine_model: "four", depot: "Low", status: "" },
      { engine_model: "four", depot: "High", status: "retired", class: "van" },
      { engine_model: "four", depot: "Low", status: "" },
    ];
    const { accepted, severities, words } = await reconcile({ units });
    expect(accepted.units).toMatchObject([{ depot: "High", status: "retired", class: "van" }]);
    expect(severities).toEqual(["warning", "mention"]);
    expect(words).toEqual([
      "units.csv: line 3, depot: the unit V-1 is given with depot High and Low; High was taken",
      "units.csv: line 4: the row repeats line 2 exactly; it counts once",
    ]);
  });
});

describe("rows of one test", () => {
  it("that repeat another exactly count once, with a mention", async () => {
    const { readings, words, severities } = await reconcile({ tests: [{}, {}, { cylinder: "2" }] });
    expect(readings).toHaveLength(2);
    expect(severities).toEqual(["mention"]);
    expect(words).toEqual(["tests.csv: line 3: the row repeats line 2 exactly; it counts once"]);
  });
  it("that give another value for the same cylinder are all refused, each naming the other", async () => {
    const { readings, words } = await reconcile({ tests: [{ value: "12" }, { value: "14" }, { cylinder: "2" }] });
    expect(readings.map((r) => r[2])).toEqual([2]);
    expect(words).toEqual([
      "tests.csv: line 2, value: 12 % stands against 14 % in line 3 for cylinder 1 of the same test; none of them was taken",
      "tests.csv: line 3, value: 14 % stands against 12 % in line 2 for cylinder 1 of the same test; none of them was taken",
    ]);
  });
  it("are of different tests with another attempt, instrument, date or measure", async () => {
    const rows = [
      {},
      { value: "14", attempt: "2" },
      { value: "15", instrument: "B" },
      { value: "16", test_date: "2026-03-03" },
      { value: "1200", value_unit: "kPa", test: "compression-dry" },
    ];
    const { accepted, issues } = await reconcile({ tests: rows });
    expect(issues).toEqual([]);
    expect(accepted.tests).toHaveLength(5);
  });
  it("that give the same value with other details count once, with a warning and all their details", async () => {
    const { accepted, severities } = await reconcile({
      tests: [{ remarks: "" }, { remarks: "hot", heard_at: "inlet" }],
    });
    expect(accepted.tests[0]?.readings).toMatchObject([{ remarks: "hot", heardAt: ["inlet"], line: 2 }]);
    expect(severities).toEqual(["warning"]);
  });
  it("that give different meters or set-ups: the lowest is taken with a warning, a blank gives way", async () => {
    const { accepted, words } = await reconcile({
      tests: [
        { meter: "120", warm: "" },
        { cylinder: "2", meter: "100", warm: "yes" },
      ],
    });
    expect(accepted.tests).toMatchObject([{ meter: 100, warm: true }]);
    expect(words).toEqual([
      "tests.csv: line 2, meter: the leak-down test of V-1 on 2026-03-02 is given with meter 100 and 120; 100 was taken",
    ]);
  });
});

describe("rows of the wide layout", () => {
  const { cylinder: _cylinder, value: _value, ...wide } = goodRow;
  async function reconcileWide(rows: readonly Row[]) {
    const { tests } = await readText(csvOf(rows.map((row) => ({ ...wide, ...row }))), { file: "wide.csv" });
    const unit = { unit: "V-1", units: [], tests, meterReadings: [], repairs: [], checks: [], judgements: [] };
    return reconcileUnit(unit, null, models);
  }
  const told = (issues: readonly RowIssue[]) => issues.map((issue) => [issue.column, issue.value, issue.words]);

  it("name the column that the file has, and the cylinder", async () => {
    const { issues, accepted } = await reconcileWide([
      { cyl_1: "12", "Cyl 2": "15", c9: "11" },
      { cyl_1: "14", "Cyl 2": "15", c9: "" },
    ]);
    expect(accepted.tests.flatMap((t) => t.readings.map((r) => r.cylinder))).toEqual([2]);
    expect(told(issues)).toEqual([
      ["c9", "11", "line 2, c9: cylinder 9 does not exist; the engine four has cylinders 1 to 4"],
      [
        "cyl_1",
        "12",
        "line 2, cyl_1: 12 % stands against 14 % in line 3 for cylinder 1 of the same test; none of them was taken",
      ],
      ["Cyl 2", null, "line 3, Cyl 2: the reading of cylinder 2 repeats that in line 2; it counts once"],
      [
        "cyl_1",
        "14",
        "line 3, cyl_1: 14 % stands against 12 % in line 2 for cylinder 1 of the same test; none of them was taken",
      ],
    ]);
  });
  it("that repeat another are told once, not for each cylinder", async () => {
    const row = { cyl_1: "12", cyl_2: "15", cyl_3: "9" };
    const { issues, accepted } = await reconcileWide([row, row]);
    expect(accepted.tests.flatMap((t) => t.readings)).toHaveLength(3);
    expect(told(issues)).toEqual([[null, null, "line 3: the row repeats line 2 exactly; it counts once"]]);
  });
  it("name the column of an improbable compression", async () => {
    const { issues } = await reconcileWide([{ test: "compression-dry", value_unit: "kPa", cyl_1: "3751" }]);
    expect(told(issues)).toEqual([["cyl_1", "3751", expect.stringMatching(/^line 2, cyl_1: 3751 kPa is more than/)]]);
  });
});

describe("the meter of a unit", () => {
  const tests = [
    { test_date: "2026-01-01", meter: "212400" },
    { test_date: "2026-05-01", meter: "900" },
  ];
  it("goes on after a reset in the meter readings", async () => {
    const meters = [{ reading_date: "2026-02-01", meter: "35", meter_reset: "yes" }];
    const { readings, issues } = await reconcile({ tests, meters });
    expect(issues).toEqual([]);
    expect(readings).toHaveLength(2);
  });
  it("without the reset refuses the lower rows, with a proposal", async () => {
    const { readings, words } = await reconcile({
      tests,
      meters: [{ reading_date: "2026-02-01", meter: "35", meter_reset: "" }],
    });
    expect(readings).toHaveLength(1);
    expect(words).toEqual([
      "meters.csv: line 2, meter: the meter 35 km is lower than 212,400 km on 2026-01-01 (line 2 of tests.csv); if the meter was replaced, add a meter reading of the new meter with meter_reset = yes, else correct the figure",
      "tests.csv: line 3, meter: the meter 900 km is lower than 212,400 km on 2026-01-01 (line 2); if the meter was replaced, add a meter reading of the new meter with meter_reset = yes, else correct the figure",
    ]);
  });
  it("is judged against what earlier imports hold", async () => {
    const held = {
      ...before,
      meterReadings: [{ date: "2026-02-01", meter: 300_000, reset: false, file: "old.csv", line: 9 }],
    };
    const { words } = await reconcile({ tests }, held);
    expect(words).toEqual([
      expect.stringMatching(/line 3, meter: the meter 900 km is lower than 300,000 km on 2026-02-01 \(known already\)/),
    ]);
  });
});
