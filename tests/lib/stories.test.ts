import { describe, expect, test } from "vitest";
import type { AssessedUnit } from "@/lib/assess.ts";
import { daysBetween } from "@/lib/calendar.ts";
import { reportUnit } from "@/lib/report.ts";
import { assessmentSchema, type CylinderAssessment, type UnitAssessment } from "@/lib/schema/assessment.ts";
import type { FleetFacts, TestFact } from "@/lib/schema/facts.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { JudgedMeasure } from "@/lib/schema/words.ts";
import { type AssessedFleet, asOf, assessFleet, readDemo } from "./demo-fleet.ts";

const { facts, issues } = await readDemo();
const fleet = assessFleet(facts);

const assessed = (unit: string, of: AssessedFleet = fleet): AssessedUnit => {
  const found = of.units.get(unit);
  if (found === undefined) throw new Error(`no unit ${unit}`);
  return found;
};
const told = (unit: string, of: AssessedFleet = fleet): UnitAssessment => assessed(unit, of).assessment;
const report = (unit: string, of: AssessedFleet = fleet): UnitReport => reportUnit(assessed(unit, of));
const cylinder = (unit: UnitAssessment, number: number): CylinderAssessment => {
  const found = unit.cylinders[number - 1];
  if (found === undefined) throw new Error(`${unit.unit} has no cylinder ${number}`);
  return found;
};
const measure = (of: CylinderAssessment, wanted: JudgedMeasure) => {
  const found = of.measures.find((m) => m.measure === wanted);
  if (found === undefined) throw new Error(`cylinder ${of.cylinder} has no ${wanted}`);
  return found;
};
const topCause = (of: CylinderAssessment) => of.causes[0]?.cause;
const because = (of: CylinderAssessment) => of.causes[0]?.because.join("; ") ?? "";
const nextTitles = (unit: string) => report(unit).next.map((step) => step.title);

/** The unit again, its facts changed, under the same pools. */
function again(unit: string, change: (facts: FleetFacts) => FleetFacts): UnitAssessment {
  return told(unit, assessFleet(change(facts), { pools: fleet.pools, only: [unit] }));
}
const withTests =
  (change: (test: TestFact) => TestFact | null) =>
  (all: FleetFacts): FleetFacts => ({
    ...all,
    tests: all.tests.flatMap((t) => change(t) ?? []),
  });

/** Days by which two windows differ at most, over the quantiles that both have; both must end beyond the horizon alike. */
function windowShiftDays(a: UnitAssessment, b: UnitAssessment, side: "topEnd" | "bottomEnd"): number {
  const [first, second] = [a.repairs[side].date, b.repairs[side].date];
  return Math.max(
    0,
    ...(["p10", "p50", "p90"] as const).map((q) => {
      const [one, other] = [first[q], second[q]];
      if (one === null || other === null) return one === other ? 0 : Infinity;
      return Math.abs(daysBetween(one, other));
    }),
  );
}

describe("the demo fleet as a whole", () => {
  test("intake refuses one row and doubts none", () => {
    expect(issues.map(({ severity, file, code }) => [severity, file, code])).toEqual([
      ["refused", "meters.csv", "meter-backwards"],
    ]);
  });

  test("all 40 units together are a document by the contract's schema", () => {
    const units = [...fleet.units.values()].map((unit) => unit.assessment);
    expect(units).toHaveLength(40);
    const document = { schemaVersion: 1, asOf, units };
    expect(assessmentSchema.parse(JSON.parse(JSON.stringify(document)))).toEqual(document);
  });

  test("about 30 of 40 units are sound or to watch", () => {
    const calm = [...fleet.units.values()].filter(({ assessment: { band } }) => band === "sound" || band === "watch");
    expect(calm.length).toBeGreaterThanOrEqual(28);
    expect(calm.length).toBeLessThanOrEqual(33);
  });

  test("a sound unit's windows do not begin within two years", () => {
    for (const { assessment } of fleet.units.values()) {
      // Where a question is open, the level of before may still be the true one.
      if (assessment.band !== "sound" || assessment.questions.length > 0) continue;
      for (const { date } of Object.values(assessment.repairs)) {
        if (date.p10 !== null) expect(daysBetween(asOf, date.p10), assessment.unit).toBeGreaterThan(730);
      }
    }
  });

  test("questions are asked of the three that improved without a repair and of the one whose last test is in doubt", () => {
    const asked = [...fleet.units.values()].filter((unit) => unit.assessment.questions.length > 0);
    expect(asked.map((unit) => unit.assessment.unit)).toEqual(["P-402", "P-403", "V-106", "V-110"]);
    const doubted = [...fleet.units.values()].filter((unit) => unit.assessment.inDoubt.length > 0);
    expect(doubted.map((unit) => unit.assessment.unit)).toEqual(["V-106"]);
  });
});

describe("the demo's stories", () => {
  test("1: V-104, all four cylinders: rings, a bottom-end window with a range, no single cylinder to blame", () => {
    const unit = told("V-104");
    for (const one of unit.cylinders) {
      expect(topCause(one)).toBe("rings-or-bore");
      expect(one.bottomEnd).toBeGreaterThan(0.9);
      expect(measure(one, "leak-down").level).toBeGreaterThan(17);
      expect(measure(one, "leak-down").level).toBeLessThan(21);
    }
    expect(because(cylinder(unit, 1))).toContain("air heard at the crankcase");
    expect(because(cylinder(unit, 1))).toMatch(/wet test rose 1[2-6] %/);
    const { status, date } = unit.repairs.bottomEnd;
    expect(status).toBe("projected");
    // (30 − 19) points at 8 points in three years, a little faster each year as the leak's area grows evenly.
    expect(date.p50 !== null && date.p50 > "2029-01-01" && date.p50 < "2031-03-01").toBe(true);
    expect(date.p10 !== null && date.p50 !== null && daysBetween(date.p10, date.p50)).toBeGreaterThan(180);
    expect(unit.repairs.topEnd.status).toBe("not-foreseen");
    expect(report("V-104").place.title).toBe("All cylinders, piston rings or bore");
    expect(report("V-104").finding).toMatch(
      /^Bottom-end repair likely .+\. All cylinders, probably the piston rings or bore \(9\d %\): leakage 1\d(?: and 20)? %, limit 30\. Leakage .*rises 0\.\d points per 10,000 km\.$/,
    );
  });

  test("2: L-203 cylinder 3, an exhaust valve that goes within 18,000 km: top-end, soon, though compression lags", () => {
    const unit = told("L-203");
    const third = cylinder(unit, 3);
    expect(topCause(third)).toBe("exhaust-valve");
    expect(third.topEnd).toBeGreaterThan(0.9);
    expect(unit.band).toBe("plan");
    const { date } = unit.repairs.topEnd;
    expect(date.p10 !== null && daysBetween(asOf, date.p10)).toBeLessThan(180);
    expect(measure(third, "compression-dry").band).not.toBe("past-limit");
    expect(unit.repairs.bottomEnd.status).toBe("not-foreseen");
    expect(report("L-203").finding).toMatch(
      /^Top-end repair likely .+\. Cylinder 3, probably the exhaust valve or seat \(9\d %\): .+ Leakage doubles every (9,000|10,000|15,000) km\. Compression lags, only \d % below the others: inspect before the next trip away\.$/,
    );
  });

  test("3: V-109 cylinders 2 and 3 step together with air at the neighbour: head gasket, top-end", () => {
    const unit = told("V-109");
    for (const number of [2, 3]) {
      const one = cylinder(unit, number);
      expect(topCause(one)).toBe("head-gasket");
      expect(one.topEnd).toBeGreaterThan(0.9);
      expect(["plan", "past-limit"]).toContain(one.band);
    }
    for (const number of [1, 4]) expect(cylinder(unit, number).band).toBe("sound");
    expect(nextTitles("V-109")).toContain("Test the coolant for combustion gas");
    expect(nextTitles("V-109")).toContain("Ask for the quote as a range");
    expect(report("V-109").place.title).toBe("Cyl 2 and 3, head gasket");
    // On watch or worse the next test does not wait for the usual interval, nor for the early date to pass.
    expect(report("V-109").nextTestDue).toBe(asOf);
    // An interval that has ended keeps its day: 365 days from the last test, of 11 July 2025.
    expect(report("M-603").nextTestDue).toBe("2026-07-11");
    expect((report("L-203").nextTestDue ?? "") <= (told("L-203").repairs.topEnd.date.p10 ?? "")).toBe(true);
  });

  test("4: L-207, cranked slowly: the test is kept and not used, the repeat counts, the forecast is unmoved", () => {
    const unit = told("L-207");
    expect(unit.warnings).toEqual(["Test of 3 Feb 2026: cranked at 110/min, reference 200/min: kept, not used"]);
    const tests = report("L-207").tests.filter((line) => line.measure === "compression-dry");
    const slow = tests.find((line) => line.date === "2026-02-03");
    expect(slow?.entered.map((reading) => reading.weight)).toEqual([0, 0, 0, 0]);
    const repeat = tests.find((line) => line.date === "2026-02-12");
    expect(repeat?.entered.map((reading) => reading.weight)).toEqual([1, 1, 1, 1]);

    const isSlow = (t: TestFact) => t.unit === "L-207" && t.date === "2026-02-03" && t.test === "compression-dry";
    const without = again(
      "L-207",
      withTests((t) => (isSlow(t) ? null : t)),
    );
    expect(unit.repairs).toEqual(without.repairs);
    expect(unit.band).toBe(without.band);
    for (const one of unit.cylinders) {
      const other = measure(cylinder(without, one.cylinder), "compression-dry");
      expect(measure(one, "compression-dry")).toEqual({ ...other, tests: other.tests + 1 });
    }
  });

  test("5: P-402 bank 1 to 4 improved without a repair: a question, and a forecast open to both readings of it", () => {
    const unit = told("P-402");
    expect(unit.questions).toHaveLength(1);
    expect(unit.questions[0]).toMatch(
      /^Cylinders 1 to 4 fell from 2[5-7] to [7-9] % between .+ and no repair is on file: repaired, engine swapped or another tester\?$/,
    );
    // Held: a chance of what they were, which the other bank has not. Widened: less sure of the rate than that bank.
    for (const number of [1, 2, 3, 4]) {
      const own = measure(cylinder(unit, number), "leak-down");
      expect(own.level ?? 0).toBeGreaterThan(own.latest ?? 0);
      const within = (n: number) => measure(cylinder(unit, n), "leak-down").crossing?.probabilityWithinYear ?? 0;
      expect(within(number)).toBeGreaterThan(within(number + 4) + 0.1);
      const width = (rate: typeof own.rate) => (rate?.p90 ?? 0) - (rate?.p10 ?? 0);
      expect(width(own.rate)).toBeGreaterThan(1.2 * width(measure(cylinder(unit, number + 4), "leak-down").rate));
    }
  });

  test("6: H-306, never tested: no forecast of its own, a baseline to book", () => {
    const unit = told("H-306");
    expect([unit.band, unit.lastTestDate]).toEqual([null, null]);
    expect(unit.cylinders.map((one) => [one.band, one.measures])).toEqual(Array(6).fill([null, []]));
    for (const { status, probabilityWithinYear } of Object.values(unit.repairs)) {
      expect(status).toBe("too-few-tests");
      expect(probabilityWithinYear).not.toBeNull();
    }
    expect(unit.meter.perDay).toBeGreaterThan(100);
    expect(unit.warnings).toContain("never tested: book a first test as the baseline");
    expect(report("H-306").place).toEqual({ title: "No test yet", detail: "book a baseline test" });
  });

  test("7: G-502, 60 h a year at 23 of 25 %: no likely date within the horizon, and standing told as the likelier harm", () => {
    const unit = told("G-502");
    const fourth = measure(cylinder(unit, 4), "leak-down");
    expect(fourth.level).toBeGreaterThan(21);
    expect(fourth.level).toBeLessThan(25);
    expect(unit.band).toBe("plan");
    // A leak that has stood at one level for years may still get worse; that it will within the horizon is not likely.
    expect(unit.repairs.topEnd.date.p50).toBeNull();
    expect((unit.repairs.topEnd.date.p10 ?? "9999") > "2027-05-31").toBe(true);
    expect(unit.meter.perDay * 365).toBeCloseTo(60, -1);
    expect(unit.warnings.join()).toMatch(
      /Works only about \d\d h a year: standing may have done more damage than wear/,
    );
    expect(nextTitles("G-502")[0]).toBe("Test again after a warm run");
  });

  test("8: V-111 wears on through its new meter; V-112's row without a reset is refused with the reason", () => {
    const refused = issues.find((issue) => issue.severity === "refused");
    expect(refused).toMatchObject({ file: "meters.csv", column: "meter", value: "35" });
    expect(refused?.words).toContain("the meter 35 km is lower than 212,400 km on 2026-08-19");
    expect(refused?.words).toContain("meter_reset = yes");
    expect(told("V-112").meter.value).toBeGreaterThan(212_400);

    const unit = told("V-111");
    expect(unit.meter.value).toBeLessThan(30_000);
    expect(measure(cylinder(unit, 1), "leak-down").tests).toBe(7);
    // As if the old meter had gone on: the same wear and dates, only the meter reads otherwise.
    const lost = 212_400;
    const isAfter = (fact: { unit: string; date: string }) => fact.unit === "V-111" && fact.date >= "2025-11-10";
    const on = again("V-111", (all) => ({
      ...all,
      tests: all.tests.map((t) => (isAfter(t) ? { ...t, meter: t.meter + lost } : t)),
      meterReadings: all.meterReadings.map((r) =>
        isAfter(r) ? { ...r, meter: r.meter + lost, meterReset: false } : r,
      ),
    }));
    expect(on.meter.value - unit.meter.value).toBeCloseTo(lost, 0);
    expect(unit.repairs.topEnd.date).toEqual(on.repairs.topEnd.date);
    expect(unit.repairs.bottomEnd.date).toEqual(on.repairs.bottomEnd.date);
    for (const one of unit.cylinders) {
      const other = measure(cylinder(on, one.cylinder), "leak-down");
      expect(measure(one, "leak-down")).toMatchObject({ level: other.level, rate: other.rate });
    }
  });

  test("9: on Midfell's new tester 4.5 % stays about 20 % where the bore is noted, and is asked about where not", () => {
    for (const unit of ["V-105", "V-108", "L-206"]) {
      expect(told(unit).questions).toEqual([]);
      for (const one of told(unit).cylinders) {
        expect(Math.abs((measure(one, "leak-down").level ?? 0) - 20)).toBeLessThan(2.5);
      }
      expect(report(unit).tests[0]?.referral.join()).toContain("referred from a 1.524 mm tester");
    }
    for (const unit of ["V-110", "P-403"]) {
      expect(told(unit).questions.join()).toContain("The tester's restrictor was not recorded at the later test.");
      expect(told(unit).questions.join()).toMatch(
        /Was it tester MF-6 with another restrictor\? At .*V-105.* it was told as 1\.524 mm; if so here too, 5 % is (19|2[0-2]) %/,
      );
      // Held: no tester that nobody described makes a worn engine sound.
      expect(["plan", "watch"]).toContain(told(unit).band);
      for (const one of told(unit).cylinders) {
        const { level, latest } = measure(one, "leak-down");
        expect(level ?? 0).toBeGreaterThan((latest ?? 0) + 5);
      }
    }
  });

  test("10: H-301 and H-304 are both likely due in weeks 48 to 52, while Highcol is closed", () => {
    const likely = [told("H-301").repairs.bottomEnd.date.p50, told("H-304").repairs.topEnd.date.p50];
    for (const date of likely) {
      expect(date !== null && date >= "2026-11-23" && date <= "2026-12-27", String(date)).toBe(true);
    }
  });

  test("11: L-205 moved up 1,845 m: readings 20 % lower are altitude, not wear", () => {
    const tests = facts.tests.filter((t) => t.unit === "L-205" && t.test === "compression-dry");
    const meanRead = (depot: string, unit: number) => {
      const values = tests.filter((t) => t.depot === depot).flatMap((t) => t.readings.map((r) => r.value * unit));
      return values.reduce((a, b) => a + b, 0) / values.length;
    };
    expect(meanRead("Highcol", 6.894757) / meanRead("Lowmarsh", 100)).toBeCloseTo(0.8, 1);

    const unit = told("L-205");
    expect([unit.band, unit.warnings, unit.questions]).toEqual(["sound", [], []]);
    const before = again(
      "L-205",
      withTests((t) => (t.unit === "L-205" && t.depot === "Highcol" ? null : t)),
    );
    for (const one of unit.cylinders) {
      const [now, then] = [one, cylinder(before, one.cylinder)].map((c) => measure(c, "compression-dry").level ?? 0);
      expect(Math.abs((now ?? 0) / (then ?? 1) - 1)).toBeLessThan(0.03);
    }
    for (const { status } of Object.values(unit.repairs)) expect(status).toBe("not-foreseen");
  });

  test("12: P-404 cylinder 6, low compression with normal leakage and no help from oil: valve timing or lift, top-end", () => {
    const sixth = cylinder(told("P-404"), 6);
    expect(topCause(sixth)).toBe("valve-timing");
    expect(sixth.topEnd).toBeGreaterThan(0.7);
    expect(because(sixth)).toMatch(/compression 1[6-9] % below the other cylinders, leakage normal/);
    expect(because(sixth)).toContain("wet test did not help");
    expect(measure(sixth, "leak-down").band).toBe("sound");
    expect(nextTitles("P-404")).toContain("Measure the valve lift");
    expect(nextTitles("P-404")).toContain("Check and adjust the valve clearance, then test again");
  });

  test("13: V-102, valves done: the top end held, ring wear carried on and its date unmoved by the valve job", () => {
    const unit = told("V-102");
    for (const one of unit.cylinders) {
      expect(topCause(one)).toBe("rings-or-bore");
      expect(one.topEnd).toBeLessThan(0.1);
      const leakage = measure(one, "leak-down");
      expect(Math.abs((leakage.level ?? 0) - 16)).toBeLessThan(1.5);
      expect(leakage.rate?.p10).toBeGreaterThan(0);
    }
    // Not reset: the three tests from before the job still count for the rings of cylinder 4.
    const wear = assessed("V-102").state.wear["leak-down"].cylinders;
    expect(wear.map((one) => one.usableTests)).toEqual([7, 7, 7, 7]);
    expect(unit.repairs.topEnd.status).toBe("not-foreseen");
    expect(unit.repairs.bottomEnd.status).toBe("projected");
    // Without the job, and without the leaking valve that called for it, the rings' date is the same.
    const isBurnt = (t: TestFact) => t.unit === "V-102" && t.date < "2024-08-20";
    const never = again("V-102", (all) => ({
      ...withTests((t) => (isBurnt(t) ? { ...t, readings: t.readings.filter((r) => r.cylinder !== 4) } : t))(all),
      repairs: all.repairs.filter((r) => r.unit !== "V-102"),
    }));
    expect(windowShiftDays(unit, never, "bottomEnd")).toBeLessThan(120);
  });

  test("14: A-702's repeat after a run stands, and its engineer decides", () => {
    const unit = told("A-702");
    const first = report("A-702").tests.filter((line) => line.date === "2025-07-28");
    expect(first.map((line) => [line.attempt, line.entered[0]?.value, line.entered[0]?.weight])).toEqual([
      [2, 71, 1],
      [1, 58, 0],
    ]);
    expect(unit.band).toBe("sound");
    expect(measure(cylinder(unit, 1), "leak-down").latest).toBeCloseTo(7.5, 0);
    expect(nextTitles("A-702")).toContain("Ask the licensed engineer");
  });

  test("14: V-106 cylinder 2 at 96 % beside normal compression was not at top dead centre", () => {
    const unit = told("V-106");
    const second = cylinder(unit, 2);
    expect(measure(second, "leak-down").latest).toBe(96);
    expect(second.band).toBe("sound");
    expect(topCause(second)).toBe("test-set-up");
    expect(unit.warnings.join()).toContain("piston probably not at top dead centre");
    for (const number of [1, 3, 4]) expect(cylinder(unit, number).testSetUp).toBeLessThan(0.2);
    expect(report("V-106").finding).toMatch(/^Last leak-down test, cylinder 2 at 96 % beside normal compression/);
    expect(report("V-106").place.title).toBe("Cyl 2, last test in doubt");
    expect(nextTitles("V-106")).toEqual(["Repeat the leak-down test of cylinder 2"]);
  });

  test("15: H-302's engine takes its wear and its history to H-305; both charts show the change", () => {
    const [swapped, fitted] = ["2024-11-12", "2025-03-11"];
    expect([told("H-302").engineSerial, told("H-305").engineSerial]).toEqual(["QD6-2950", "QD6-4315"]);
    const [from, to] = [report("H-302"), report("H-305")];
    expect(from.tests.every((line) => line.unit === "H-302" && line.date > swapped)).toBe(true);
    const before = to.tests.filter((line) => line.unit === "H-302");
    expect(before.length).toBeGreaterThan(0);
    expect(before.every((line) => line.date < swapped)).toBe(true);
    expect(to.tests.filter((line) => line.unit === "H-305").every((line) => line.date > fitted)).toBe(true);
    // One wear axis: it goes on in H-305 from where it stood when the engine left H-302.
    const left = from.repairs[0]?.x ?? 0;
    const first = to.tests.findLast((line) => line.unit === "H-305");
    expect(first?.x).toBeGreaterThan(left);
    expect((first?.x ?? 0) - left).toBeLessThan(30_000);
    expect(from.repairs.map(({ date, scope }) => [date, scope])).toEqual([[swapped, "engine-swap"]]);
    expect(to.repairs.map(({ date, scope }) => [date, scope])).toEqual([
      ["2025-01-21", "complete"],
      [fitted, "engine-swap"],
    ]);
    // Rebuilt: neither the worn state of this engine nor that of the one it replaced.
    for (const one of told("H-305").cylinders) expect(measure(one, "leak-down").level).toBeLessThan(6);
    for (const unit of ["H-302", "H-305"]) expect([told(unit).warnings, told(unit).questions]).toEqual([[], []]);
  });

  test("16: M-602's decompressed compression is not judged, its leakage is", () => {
    const only = cylinder(told("M-602"), 1);
    const compression = measure(only, "compression-dry");
    expect(compression.tests).toBe(7);
    expect([compression.band, compression.limit, compression.crossing]).toEqual([null, null, null]);
    const leakage = measure(only, "leak-down");
    expect(Math.abs((leakage.level ?? 0) - 9)).toBeLessThan(1.5);
    expect(only.band).toBe("sound");
    expect(told("M-602").warnings).toEqual([]);
  });
});
