import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { addDays, addMonths } from "@/lib/calendar.ts";
import { reportUnit } from "@/lib/report.ts";
import { assessmentSchema, type Crossing, type UnitAssessment } from "@/lib/schema/assessment.ts";
import type { FleetFacts } from "@/lib/schema/facts.ts";
import { bands } from "@/lib/schema/words.ts";
import { type AssessedFleet, assessedFleet } from "./assessment/made-up-fleet.ts";
import { asOf, models, smallFleet } from "./assessment/random-fleet.ts";

/** Rules of the document that hold for any facts whatever (contract, sections 5 and 6), over small made-up fleets. */

const horizonYears = 5;

/** All rules look at the same fleets, of another seed in each run: to assess a fleet takes longer than to look at it. */
const [seed = 0] = fc.sample(fc.integer(), 1);
const assessed = new Map<string, AssessedFleet>();

function assessedOnce(facts: Partial<FleetFacts>): AssessedFleet {
  // Lines are counted on from fleet to fleet.
  const key = JSON.stringify(facts, (name, value) => (name === "line" ? undefined : value));
  const known = assessed.get(key) ?? assessedFleet(facts, { asOf, horizonYears });
  assessed.set(key, known);
  return known;
}

const assessments = ({ units }: AssessedFleet): UnitAssessment[] => units.map((unit) => unit.assessment);
const told = (facts: Partial<FleetFacts>) => assessments(assessedOnce(facts));
const toldOn = (facts: Partial<FleetFacts>, on: string) =>
  assessments(assessedFleet(facts, { asOf: on, horizonYears }));
const check = (rule: (facts: Partial<FleetFacts>) => void) =>
  fc.assert(fc.property(smallFleet, rule), { seed, numRuns: 60 });

function* crossingsOf(unit: UnitAssessment): Iterable<Crossing> {
  yield unit.repairs.topEnd;
  yield unit.repairs.bottomEnd;
  for (const { measures } of unit.cylinders) {
    for (const { crossing } of measures) if (crossing !== null) yield crossing;
  }
}

/** Paths of numbers that are not finite. */
function notFinite(value: unknown, at = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [at];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => notFinite(inner, `${at}.${key}`));
}

const horizonEnd = addMonths(asOf, 12 * horizonYears);
const quantiles = ["p10", "p50", "p90"] as const;

describe("any fleet's assessment", () => {
  test("is a document by the contract's schema, with nothing lost on the way through JSON", () =>
    check((facts) => {
      const document = { schemaVersion: 1, asOf, units: told(facts) };
      expect(assessmentSchema.parse(JSON.parse(JSON.stringify(document)))).toEqual(document);
    }));

  test("lists every known unit and all cylinders of its model, and how hard each works", () =>
    check((facts) => {
      const { units } = assessedOnce(facts);
      expect(units.map((u) => u.assessment.unit)).toEqual(["A-1", "A-2", "A-3"]);
      for (const [i, { assessment: unit, telling }] of units.entries()) {
        const model = models.find((m) => m.id === facts.units?.[i]?.engineModel);
        const numbers = Array.from({ length: model?.cylinders ?? 0 }, (_, c) => c + 1);
        expect(unit.cylinders.map((c) => c.cylinder)).toEqual(numbers);
        // Told to thousandths, so that a unit that stands may show 0; the forecast itself never divides by it.
        expect(telling.use.perDay).toBeGreaterThan(0);
        expect(Math.abs(unit.meter.perDay - telling.use.perDay)).toBeLessThan(0.000_51);
        for (const { causes } of unit.cylinders) {
          expect(causes.reduce((sum, c) => sum + c.probability, 0)).toBeCloseTo(1, 3);
        }
      }
    }));

  test("tells crossings in order, none in the past, none beyond the horizon, meter and date together", () =>
    check((facts) => {
      for (const unit of told(facts)) {
        for (const { status, meter, date } of crossingsOf(unit)) {
          let before = { meter: unit.meter.value, date: asOf };
          for (const q of quantiles) {
            const at = { meter: meter[q], date: date[q] };
            expect(at.meter === null).toBe(at.date === null);
            if (at.meter === null || at.date === null) continue;
            expect(at.meter).toBeGreaterThanOrEqual(before.meter);
            expect(at.date >= before.date).toBe(true);
            expect(at.date <= horizonEnd).toBe(true);
            before = { meter: at.meter, date: at.date };
          }
          const none = status === "not-foreseen" || status === "too-few-tests";
          expect(date.p10 === null).toBe(none);
          if (none) expect([date.p50, date.p90]).toEqual([null, null]);
        }
      }
    }));

  test("puts what has crossed at the as-of meter and date, and that is what lies at or past its limit", () =>
    check((facts) => {
      for (const unit of told(facts)) {
        for (const { status, meter, date, probabilityWithinYear } of crossingsOf(unit)) {
          if (status !== "crossed") continue;
          expect(Object.values(meter)).toEqual(Array(3).fill(unit.meter.value));
          expect(Object.values(date)).toEqual(Array(3).fill(asOf));
          expect(probabilityWithinYear).toBe(1);
        }
        for (const { measure, level, limit, crossing, band } of unit.cylinders.flatMap((c) => c.measures)) {
          if (level === null) continue;
          expect(level).toBeGreaterThanOrEqual(0);
          if (measure === "leak-down") expect(level).toBeLessThanOrEqual(100);
          if (limit === null) continue;
          const past = measure === "leak-down" ? level - limit : limit - level;
          // The level is told rounded.
          if (Math.abs(past) > 0.06) expect(crossing?.status === "crossed").toBe(past > 0);
          if (crossing?.status === "crossed") expect(band).toBe("past-limit");
        }
      }
    }));

  test("gives a cylinder its worst measure's band and a unit its worst cylinder's", () =>
    check((facts) => {
      const worst = (some: readonly UnitAssessment["band"][]) =>
        some.reduce((a, b) => (b !== null && (a === null || bands.indexOf(b) > bands.indexOf(a)) ? b : a), null);
      for (const unit of told(facts)) {
        expect(unit.band).toBe(worst(unit.cylinders.map((c) => c.band)));
        for (const c of unit.cylinders) expect(c.band).toBe(worst(c.measures.map((m) => m.band)));
      }
    }));

  test("counts readings and tells the last one; what is not judged has neither limit, band nor crossing", () =>
    check((facts) => {
      for (const { unit, state, assessment } of assessedOnce(facts).units) {
        for (const { cylinder, measures } of assessment.cylinders) {
          for (const m of measures) {
            const readings = state.conditioned.history.tests
              .filter((t) => t.measure === m.measure)
              .flatMap((t) => t.readings.filter((r) => r.cylinder === cylinder));
            expect(m.tests).toBe(readings.length);
            expect(Math.abs((m.latest ?? Number.NaN) - (readings.at(-1)?.value ?? Number.NaN))).toBeLessThan(0.06);
            const isJudged =
              m.measure === "leak-down"
                ? unit.model.leakDown !== undefined
                : m.measure === "compression-dry" && unit.model.compression !== undefined;
            expect([m.limit, m.crossing].map((v) => v !== null)).toEqual([isJudged, isJudged]);
            expect(m.band !== null).toBe(isJudged && m.level !== null);
          }
        }
      }
    }));

  test("does not see the future, and does not depend on the order of the facts", () =>
    fc.assert(
      fc.property(smallFleet, fc.integer({ min: 0, max: 1500 }), (facts, daysBack) => {
        const cut = addDays(asOf, -daysBack);
        const until = <T extends { readonly date: string }>(rows: readonly T[] | undefined) =>
          (rows ?? []).filter((row) => row.date <= cut).toReversed();
        const known = {
          ...facts,
          tests: until(facts.tests),
          repairs: until(facts.repairs),
          meterReadings: until(facts.meterReadings),
          units: (facts.units ?? []).toReversed(),
        };
        expect(toldOn(facts, cut)).toEqual(toldOn(known, cut));
      }),
      { numRuns: 30 },
    ));
});

describe("any unit's report", () => {
  const reports = (facts: Partial<FleetFacts>) => assessedOnce(facts).units.map(reportUnit);

  test("holds no number that is none", () =>
    check((facts) => {
      expect(notFinite(reports(facts))).toEqual([]);
    }));

  test("has its axis, marks and fans in order, and today on the axis", () =>
    check((facts) => {
      for (const report of reports(facts)) {
        expect(report.datesOnAxis).toContainEqual({ x: report.xNow, date: asOf });
        for (const [i, point] of report.datesOnAxis.entries()) {
          const before = report.datesOnAxis[i - 1];
          if (before !== undefined) expect(point.x > before.x && point.date > before.date).toBe(true);
        }
        expect(report.repairs.map((r) => r.x)).toEqual(report.repairs.map((r) => r.x).toSorted((a, b) => a - b));
        for (const { date } of report.repairs) expect(date).toMatch(/^\d{4}-\d\d-\d\d$/);
        for (const { fan, points } of report.charts.flatMap((c) => c.cylinders)) {
          for (const at of fan) {
            const values = [at.p10, at.p25, at.p50, at.p75, at.p90];
            expect(values).toEqual(values.toSorted((a, b) => a - b));
            expect(at.p10).toBeGreaterThanOrEqual(0);
          }
          if (fan[0] !== undefined) expect(fan[0].x).toBeCloseTo(report.xNow, 1);
          const lives = points.map((p) => p.life);
          expect(lives).toEqual(lives.toSorted((a, b) => a - b));
        }
      }
    }));

  test("says something whole in every sentence", () =>
    check((facts) => {
      for (const report of reports(facts)) {
        for (const words of [report.finding, report.howSure]) {
          expect(words).toMatch(/^[A-Z].*\.$/);
          expect(words).not.toMatch(/undefined|null|NaN|Infinity|−0|\.\.| {2}/);
        }
        expect(report.place.title).toMatch(/\S/);
      }
    }));
});
