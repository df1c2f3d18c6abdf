import { describe, expect, it } from "vitest";
import { withFirstDay } from "@/lib/intake/first-day.ts";
import { nothingBefore, oddTests } from "@/lib/intake/odd-tests.ts";
import { reconcileUnit } from "@/lib/intake/reconcile-unit.ts";
import { alikeUnits } from "@/lib/intake/unit-names.ts";
import { noRows } from "@/lib/intake/unit-rows.ts";
import type { TestFact } from "@/lib/schema/facts.ts";
import { assembled, csvOf, goodRow, models, readText } from "./read-text.ts";

type Row = Readonly<Record<string, string>>;
const compression = { test: "compression-dry", value_unit: "kPa" };

/** One test on all four cylinders. */
const testOf = (row: Row, values: readonly number[]): readonly Row[] =>
  values.map((value, i) => ({ ...goodRow, cylinder: `${i + 1}`, value: `${value}`, ...row }));
const march = { ...compression, test_date: "2026-03-02", meter: "4180" };
const june = { ...compression, test_date: "2026-06-01", meter: "5090" };

async function oddOf(...tests: readonly (readonly Row[])[]) {
  const { issues } = await assembled(csvOf(tests.flat()));
  return issues.map(({ code, line, column, proposals = [], severity }) => {
    expect(severity).toBe("warning");
    return [code, line, column, proposals.map((proposal) => proposal.words)];
  });
}

/** The issues that are left once the first proposal of the first one was taken. */
async function afterTaking(...tests: readonly (readonly Row[])[]) {
  const text = csvOf(tests.flat());
  const { issues } = await assembled(text);
  const corrections = issues[0]?.proposals?.[0]?.cells ?? [];
  expect(corrections).not.toEqual([]);
  const read = await readText(text, { corrections });
  return oddTests({
    tests: read.tests,
    before: nothingBefore,
    model: models.get("four") ?? null,
    meterUnit: "km",
  });
}

const values = [1210, 1195, 1180, 1225];
const later = [1205, 1180, 1170, 1220];

describe("a test beside the others of its unit", () => {
  it("is not odd where it reads about what the last one did", async () => {
    expect(await oddOf(testOf(march, values), testOf(june, later))).toEqual([]);
  });

  it("with the readings of one a day off is pointed out, and becomes that test by one date", async () => {
    const tests = [testOf(march, values), testOf({ ...june, test_date: "2026-03-03" }, values)] as const;
    expect(await oddOf(...tests)).toEqual([["near-repeat", 6, "test_date", ["Read the date as 2026-03-02"]]]);
    expect(await afterTaking(...tests)).toEqual([]);
  });

  it("with the very readings of the last one is pointed out as copied", async () => {
    expect(await oddOf(testOf(march, values), testOf(june, values))).toEqual([["copied", 6, null, []]]);
  });

  it("of one day with the same meter and readings, one without its instrument, is offered as the same test", async () => {
    const named = testOf({ ...march, instrument: "G-1" }, values);
    const blank = testOf(march, values);
    const words = ["The instrument was G-1: it is the same test"];
    const told = await oddOf(named, blank);
    expect(told).toEqual([["same-day-repeat", expect.any(Number), "instrument", expect.any(Array)]]);
    // Known with its instrument: the one that comes in becomes it by one cell a row.
    const { tests: known } = await readText(csvOf(named));
    const { tests } = await readText(csvOf(blank));
    const look = {
      before: { tests: known, inServiceDate: null },
      model: models.get("four") ?? null,
      meterUnit: "km",
    } as const;
    const [issue] = oddTests({ ...look, tests });
    expect(issue?.proposals?.map((proposal) => proposal.words)).toEqual(words);
    const corrections = issue?.proposals?.[0]?.cells ?? [];
    const read = await readText(csvOf(blank), { corrections });
    expect(read.tests.map(({ instrument }) => instrument)).toEqual(["G-1"]);
    // A second reading on another day, meter or attempt is one, and so is another gauge's.
    expect(await oddOf(named, testOf({ ...march, attempt: "2" }, values))).toEqual([]);
    expect(await oddOf(named, testOf({ ...march, instrument: "G-2" }, values))).toEqual([]);
  });

  it("of one day and meter that names its instrument otherwise, or reads otherwise, is pointed out", async () => {
    const named = testOf({ ...march, instrument: "gauge MF-2" }, values);
    expect(await oddOf(named, testOf({ ...march, instrument: "Gauge MF2" }, values))).toEqual([
      ["same-day-repeat", expect.any(Number), "instrument", [expect.stringContaining("it is the same test")]],
    ]);
    expect(await oddOf(named, testOf(march, later))).toEqual([
      ["same-day-other", expect.any(Number), "instrument", expect.any(Array)],
    ]);
  });

  it.each([
    [compression, [2250, 2310, 2.26, 2310], 4],
    [compression, [2250, 2310, 226, 2310], 4],
    [{ test: "leak-down", value_unit: "%" }, [6, 0.07, 7, 5], 3],
  ])("with one reading whose decimal sign slipped is pointed out (%#)", async (row, read, line) => {
    const told = await oddOf(testOf({ ...march, ...row }, read));
    expect(told).toEqual([["decimal-slip", line, "value", []]]);
  });

  it.each([
    [compression, [1205, 0, 1170, 1220]],
    [{ test: "leak-down", value_unit: "%" }, [6, 88, 7, 5]],
    [{ test: "leak-down", value_unit: "%" }, [0.5, 1.5, 1, 2]],
  ])("with a dead or a tight cylinder is not (%#)", async (row, read) => {
    expect(await oddOf(testOf({ ...march, ...row }, read))).toEqual([]);
  });

  it("whose meter ran faster than the clock, or than anything drives, is pointed out", async () => {
    const hours = (row: Row, kpa: readonly number[]) => testOf({ ...row, meter_unit: "h" }, kpa);
    const first = hours({ ...march, meter: "1000" }, values);
    // From 2 March to 1 June lie 91 days.
    expect(await oddOf(first, hours({ ...june, meter: `${1000 + 24 * 92}` }, later))).toEqual([]);
    expect(await oddOf(first, hours({ ...june, meter: `${1001 + 24 * 92}` }, later))).toEqual([
      ["meter-fast", 6, "meter", []],
    ]);
    expect(await oddOf(testOf(march, values), testOf({ ...june, meter: "999000" }, later))).toEqual([
      ["meter-fast", 6, "meter", []],
    ]);
  });

  it("of which all compressions lie far below anything, in every unit, is pointed out", async () => {
    const low = values.map((value) => value / 1000);
    expect(await oddOf(testOf(march, values), testOf(june, low))).toEqual([["too-low", 6, "value", []]]);
    expect(await oddOf(testOf({ ...march, value_unit: "bar" }, [1.21, 1.19, 1.18, 1.22]))).toEqual([
      ["too-low", 2, "value", []],
    ]);
    // One dead cylinder is a finding, no slip.
    expect(await oddOf(testOf(march, values), testOf(june, [1205, 0, 1170, 1220]))).toEqual([]);
  });

  it("that loses nearly everything in every cylinder is asked whether that was held", async () => {
    const leakage = { test: "leak-down", value_unit: "%" };
    const before = testOf({ ...march, ...leakage }, [8, 9, 7, 11]);
    const held = testOf({ ...june, ...leakage }, [93, 94, 95, 92]);
    expect(await oddOf(before, held)).toEqual([["held-as-lost", 6, "value", []]]);
    expect(await oddOf(held)).toEqual([["held-as-lost", 2, "value", []]]);
    expect(await oddOf(before, testOf({ ...june, ...leakage }, [93, 12, 8, 9]))).toEqual([]);
  });

  it("with a leakage in whole percent that repeats is not: that happens", async () => {
    const leakage = { test: "leak-down", value_unit: "%" };
    const whole = [8, 9, 7, 11];
    expect(await oddOf(testOf({ ...march, ...leakage }, whole), testOf({ ...june, ...leakage }, whole))).toEqual([]);
  });

  it("with the meter of another day is pointed out once for the day", async () => {
    const wet = { ...june, test: "compression-wet", meter: "4180" };
    expect(
      await oddOf(
        testOf(march, values),
        testOf({ ...june, meter: "4180" }, later),
        testOf(wet, [1300, 1290, 1280, 1310]),
      ),
    ).toEqual([["meter-equal", 6, "meter", []]]);
  });

  it("made again within a fortnight may have the same meter: the unit stood", async () => {
    const again = testOf({ ...march, test_date: "2026-03-14" }, later);
    expect(await oddOf(testOf(march, values), again)).toEqual([]);
    expect(await oddOf(testOf(march, values), testOf({ ...march, test_date: "2026-03-18" }, later))).toEqual([
      ["meter-equal", 6, "meter", []],
    ]);
  });

  it.each([
    ["kPa", "psi", (kpa: number) => Math.round(kpa / 6.894757)],
    ["kPa", "bar", (kpa: number) => kpa / 100],
    ["psi", "bar", (kpa: number) => kpa / 100],
  ])("written in %s but measured in %s is offered in that", async (written, meant, convert) => {
    const wrong = testOf({ ...june, value_unit: written }, later.map(convert));
    const tests = [testOf(march, values), wrong] as const;
    expect(await oddOf(...tests)).toEqual([["pressure-unit", 6, "value_unit", [`Read the pressures in ${meant}`]]]);
    expect(await afterTaking(...tests)).toEqual([]);
  });

  it("that is the unit's first is held against the engine's new value", async () => {
    const psi = values.map((kpa) => Math.round(kpa / 6.894757));
    expect(await oddOf(testOf(march, psi))).toEqual([
      ["pressure-unit", 2, "value_unit", ["Read the pressures in psi"]],
    ]);
  });

  it("of an engine that lost nearly all compression on one cylinder is not in another unit", async () => {
    expect(await oddOf(testOf(march, values), testOf(june, [1205, 160, 1170, 1220]))).toEqual([]);
  });

  const sloping = [1240, 1190, 1120, 980];
  it("counted from the other end is offered the other way round, long and wide", async () => {
    const tests = [
      testOf(march, sloping),
      testOf(
        june,
        sloping.toReversed().map((kpa) => kpa - 12),
      ),
    ] as const;
    expect(await oddOf(...tests)).toEqual([
      ["cylinders-reversed", 6, "cylinder", ["Count the cylinders from the other end"]],
    ]);
    expect(await afterTaking(...tests)).toEqual([]);
    const { cylinder: _c, value: _v, ...head } = goodRow;
    const wide = (row: Row, cells: readonly number[]) => ({
      ...head,
      ...row,
      ...Object.fromEntries(cells.map((cell, i) => [`cyl_${i + 1}`, `${cell}`])),
    });
    const wideTests = [
      [wide(march, sloping)],
      [
        wide(
          june,
          sloping.toReversed().map((kpa) => kpa - 12),
        ),
      ],
    ] as const;
    expect(await oddOf(...wideTests)).toEqual([
      ["cylinders-reversed", 3, "cylinder", ["Count the cylinders from the other end"]],
    ]);
    expect(await afterTaking(...wideTests)).toEqual([]);
  });

  it("that fell on one end is not taken for one counted from the other", async () => {
    expect(await oddOf(testOf(march, [1240, 1235, 1228, 1240]), testOf(june, [1000, 1230, 1225, 1238]))).toEqual([]);
  });

  it("with one bad cylinder is turned round, though its leakage wanders by points", async () => {
    const leakage = { test: "leak-down", value_unit: "%" };
    const tests = [testOf({ ...march, ...leakage }, [9, 8, 10, 28]), testOf({ ...june, ...leakage }, [32, 11, 9, 10])];
    expect(await oddOf(...tests)).toEqual([
      ["cylinders-reversed", 6, "cylinder", ["Count the cylinders from the other end"]],
    ]);
  });

  it("before the unit's first day is pointed out, with the one year in which its meter fits", async () => {
    const units = csvOf([{ unit: "V-1", engine_model: "four", in_service_date: "2025-01-02" }]);
    const early = testOf({ ...march, test_date: "2024-02-01", meter: "900" }, values);
    const next = testOf({ ...march, test_date: "2025-06-01", meter: "4000" }, later);
    const { issues } = await assembled(csvOf([...early, ...next]), units);
    expect(issues).toMatchObject([
      {
        ...{ code: "before-first-day", line: 2, column: "test_date", value: "2024-02-01", severity: "warning" },
        proposals: [{ kind: "test-date", words: "Read the date as 2025-02-01" }],
      },
    ]);
    // In both years the meter fits: neither is offered.
    const late = testOf({ ...march, test_date: "2026-06-01", meter: "9000" }, later);
    const { tests } = await readText(csvOf([...early, ...late]));
    const look = { before: { tests: [], inServiceDate: "2025-01-02" }, model: null, meterUnit: "km" } as const;
    expect(oddTests({ ...look, tests })).toMatchObject([{ code: "before-first-day" }]);
    expect(oddTests({ ...look, tests })[0]).not.toHaveProperty("proposals");
  });

  it("before the unit's first day and with a meter of another year is refused, and its date is offered", async () => {
    const slip = testOf({ ...march, test_date: "2015-07-01", meter: "6000" }, values);
    const known = [march, { ...june, test_date: "2026-12-01", meter: "9000" }].map((row) => testOf(row, later));
    // What is known stands: the test with the slip is higher than a later one.
    const text = csvOf(slip);
    const rows = { ...noRows("V-1"), tests: (await readText(text)).tests };
    const { tests: standing } = await readText(csvOf(known.flat()));
    const meterReadings = standing.map(({ date, meter }) => ({ date, meter, reset: false, file: "known", line: 1 }));
    const before = { engineModel: "four", meterUnit: "km", meterReadings, judgements: [] } as const;
    const judged = reconcileUnit(rows, before, models);
    const issues = withFirstDay(rows, judged, judged.issues, { tests: standing, inServiceDate: "2024-01-02" });
    expect(issues).toHaveLength(4);
    for (const issue of issues) {
      expect(issue.words).toContain(
        "the date 2015-07-01 lies before the unit's first day (2024-01-02), so look at that first",
      );
      expect(issue.proposals?.map(({ words }) => words)).toEqual(["Read the date as 2026-07-01"]);
    }
    const corrections = issues[0]?.proposals?.[0]?.cells ?? [];
    expect((await readText(text, { corrections })).tests.map(({ date }) => date)).toEqual(["2026-07-01"]);
    // Nothing is known of the first day: the meter alone is told of.
    expect(withFirstDay(rows, judged, judged.issues, nothingBefore)).toEqual(judged.issues);
  });

  it("whose odometer runs far ahead in miles is offered as read in km, where it is known how hard the unit works", async () => {
    const miles = (date: string, meter: string, kpa: readonly number[]) =>
      testOf({ ...march, test_date: date, meter, meter_unit: "mi" }, kpa);
    const before = [miles("2024-03-04", "20000", values), miles("2025-03-03", "30000", later)] as const;
    const next = (meter: string) => oddOf(...before, miles("2026-03-02", meter, [1200, 1170, 1165, 1210]));
    expect(await next("66500")).toEqual([["meter-jump", 10, "meter", ["Read the meter as km: 41,321 mi"]]]);
    expect(await next("42500")).toEqual([]);
    // It worked twice as hard.
    expect(await next("50500")).toEqual([]);
    // A young unit's meter grows so by itself.
    expect(await oddOf(miles("2025-03-03", "10000", values), miles("2026-03-02", "17000", later))).toEqual([]);
  });

  it("is not looked at again where it is known, nor told the same twice", async () => {
    const { tests } = await readText(csvOf([...testOf(march, values), ...testOf(june, values)]));
    const look = {
      before: { ...nothingBefore, tests: tests as readonly TestFact[] },
      model: null,
      meterUnit: "km",
    } as const;
    expect(oddTests({ ...look, tests })).toEqual([]);
  });

  it("is told against what is known, without a line", async () => {
    const { tests } = await readText(csvOf(testOf(march, values)));
    const { tests: added } = await readText(csvOf(testOf(june, values)));
    const issues = oddTests({ tests: added, before: { ...nothingBefore, tests }, model: null, meterUnit: "km" });
    expect(issues.map((issue) => issue.words)).toEqual([
      "line 2: all readings are exactly those of the test of 2026-03-02 (known already); taken, but look whether they were copied from it",
    ]);
  });
});

describe("a unit's name", () => {
  it.each(["v-104", "V 104", "V-0104", "V-1O4", " V-104", "Ｖ-104"])("%j is almost V-104", (name) => {
    expect(alikeUnits([name], new Set(["V-104", "V-105"]))(name)).toEqual({ unit: "V-104", isKnown: true });
  });
  it.each(["V-1040", "V-14", "W-104", "V-10", "V-104A"])("%j is another", (name) => {
    expect(alikeUnits([name], new Set(["V-104"]))(name)).toBeNull();
  });
  it("that is known is nobody else's", () => {
    expect(alikeUnits(["V-104", "v-104"], new Set(["V-104", "v-104"]))("v-104")).toBeNull();
  });
  it("almost another's of the same files is pointed out, without saying which is right", async () => {
    const { issues } = await assembled(
      csvOf([
        { ...goodRow, unit: "V-07" },
        { ...goodRow, unit: "V-7", value: "14" },
      ]),
    );
    expect(issues.map(({ code, line, proposals }) => [code, line, proposals])).toEqual([["unit-alike", 3, undefined]]);
  });
});
