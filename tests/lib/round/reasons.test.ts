import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addDays } from "@/lib/calendar.ts";
import { reportUnit } from "@/lib/report.ts";
import { roundReasons } from "@/lib/round/reasons.ts";
import { roundEntry } from "@/lib/round/round-entry.ts";
import type { TestLine, UnitReport } from "@/lib/schema/report.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";
import { report } from "../../db/made-up-report.ts";
import { assessFleet, readDemo } from "../demo-fleet.ts";

const settings = settingsSchema.parse({});
const model = report("V-1").model;

const line = (date: string, x: number, more: Partial<TestLine> = {}): TestLine => ({
  date,
  unit: "V-1",
  meter: x,
  x,
  measure: "leak-down",
  attempt: 1,
  depot: null,
  setUp: {
    warm: null,
    throttleOpen: null,
    allPlugsOut: null,
    tdcConfirmed: null,
    gaugeZeroed: null,
    orificeMm: null,
    crankingRpm: null,
    altitudeM: null,
    barometerKpa: null,
  },
  instrument: null,
  testedBy: null,
  entered: [
    {
      cylinder: 1,
      value: 9,
      valueUnit: "%",
      supply: null,
      referred: 9,
      weight: 1,
      heardAt: [],
      order: null,
      remarks: null,
    },
  ],
  referral: [],
  doubts: [],
  file: "a.csv",
  line: 2,
  ...more,
});

/** As of 30 June 2026, at 1,000 h, 5 h a day; tested on 1 March at 600 h. */
const tested = (
  interval: { meter?: number; days?: number },
  nextTestDue: string | null,
  more: Partial<UnitReport> = {},
) =>
  report("V-1", {
    model: { ...model, testInterval: interval },
    tests: [line("2026-03-01", 600)],
    nextTestDue,
    ...more,
  });

describe("why a unit is on a test round", () => {
  it("because its interval ends by the calendar", () => {
    const due = tested({ days: 150 }, "2026-07-29");
    expect(roundReasons(due, settings, "2026-07-29")).toEqual([{ kind: "interval", on: "2026-07-29", meter: null }]);
    expect(roundReasons(due, settings, "2026-07-28")).toEqual([]);
  });

  it("because its interval ends by the meter: at what it reads then", () => {
    const due = tested({ meter: 500, days: 365 }, "2026-07-20");
    expect(roundReasons(due, settings, "2026-07-20")).toEqual([{ kind: "interval", on: "2026-07-20", meter: 1100 }]);
  });

  it("because it is on watch or worse, before its interval ends", () => {
    const due = tested({ days: 365 }, "2026-07-10", { assessment: { ...report("V-1").assessment, band: "watch" } });
    expect(roundReasons(due, settings, "2026-08-01")).toEqual([{ kind: "sooner", on: "2026-07-10" }]);
  });

  it("because it was never tested, or no test can be used", () => {
    const never = report("V-1", { nextTestDue: "2026-06-30", assessment: { lastTestDate: null } });
    expect(roundReasons(never, settings, "2026-06-30")).toEqual([{ kind: "first", never: true }]);
    const unused = line("2026-03-01", 600);
    const aside = { ...unused, entered: unused.entered.map((e) => ({ ...e, weight: 0 })) };
    const none = report("V-1", { nextTestDue: "2026-06-30", tests: [aside] });
    expect(roundReasons(none, settings, "2026-06-30")).toEqual([{ kind: "first", never: false }]);
  });

  it("because its last reading is in doubt, whatever its interval says", () => {
    const inDoubt = [
      { measure: "leak-down" as const, cylinder: 2, words: "Last leak-down test, cylinder 2: too good" },
    ];
    const asked = report("V-1", { assessment: { inDoubt } });
    expect(roundReasons(asked, settings, "2026-06-30")).toEqual([{ kind: "question", words: inDoubt[0]?.words }]);
    const both = tested({ days: 100 }, "2026-06-09", { assessment: { ...report("V-1").assessment, inDoubt } });
    expect(roundReasons(both, settings, "2026-06-30").map(({ kind }) => kind)).toEqual(["interval", "question"]);
  });

  it("never for less of a reason the further the round reaches", () => {
    const reached = fc.integer({ min: -400, max: 800 }).map((days) => addDays("2026-06-30", days));
    const interval = fc.record({ days: fc.integer({ min: 1, max: 700 }), meter: fc.integer({ min: 1, max: 4000 }) });
    fc.assert(
      fc.property(reached, reached, reached, interval, (next, a, b, every) => {
        const due = tested(every, next);
        const [near = a, far = b] = [a, b].toSorted();
        const reasons = roundReasons(due, settings, near);
        expect(reasons.length > 0).toBe(next <= near);
        expect(roundReasons(due, settings, far).length).toBeGreaterThanOrEqual(reasons.length);
      }),
    );
  });
});

describe("what a round tells of the demo fleet", () => {
  it("a reason for every unit whose test is due, with the last test of each kind as it was entered", async () => {
    const { facts } = await readDemo();
    const reports = [...assessFleet(facts).units.values()].map(reportUnit);
    const until = "2026-09-28";
    const kinds = new Set<string>();
    for (const one of reports) {
      const entry = roundEntry(one, settings, until);
      const isDue = one.nextTestDue !== null && one.nextTestDue <= until;
      expect([one.assessment.unit, entry.reasons.length]).toEqual([
        one.assessment.unit,
        (isDue ? 1 : 0) + one.assessment.inDoubt.length,
      ]);
      for (const { kind } of entry.reasons) kinds.add(kind);
      for (const last of entry.last) {
        const later = one.tests.filter((t) => t.measure === last.measure && t.date > last.date);
        expect(later).toEqual([]);
        expect(last.entered.length).toBeGreaterThan(0);
      }
      expect(entry.last.length > 0).toBe(one.assessment.lastTestDate !== null);
      expect(entry.hours).toBeGreaterThan(settings.testReadyHours);
    }
    expect([...kinds].sort()).toEqual(["first", "interval", "question", "sooner"]);
  });
});
