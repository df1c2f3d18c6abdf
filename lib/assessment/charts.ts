import type { AssessedUnit } from "../assess.ts";
import { wearLives } from "../condition/lives.ts";
import { madeAfter, worseSign } from "../condition/series.ts";
import { levelQuantilesAhead } from "../projection/fan.ts";
import { distanceWithin } from "../projection/use-ahead.ts";
import type { CylinderAssessment } from "../schema/assessment.ts";
import type { ChartPoint, CheckLine, CylinderSeries, MeasureChart, RepairMark, TestLine } from "../schema/report.ts";
import { type Cause, type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import type { EngineRepair, Fitting, SealedReading } from "../sealing/types.ts";
import { toKpa } from "../units.ts";
import { cylinderWords, scopeWords } from "../wording.ts";
import { onScale, rounded, roundedReading, unitOf } from "./rounding.ts";

const fanSteps = 24;

/** One chart for each judged measure that was ever taken: points, limits and each cylinder's fan. */
export function measureCharts(assessed: AssessedUnit): MeasureChart[] {
  const { model } = assessed.unit;
  return judgedMeasures.flatMap((measure): MeasureChart[] => {
    if (!assessed.state.conditioned.tests.some((t) => t.test.measure === measure)) return [];
    const leakDown = measure === "leak-down" ? model.leakDown : undefined;
    return [
      {
        measure,
        unit: unitOf(measure),
        limit:
          leakDown?.limitPercent ?? (measure === "compression-dry" ? (model.compression?.minimumKpa ?? null) : null),
        plan: leakDown?.planPercent ?? null,
        watch: leakDown?.watchPercent ?? null,
        cylinders: assessed.assessment.cylinders.map((c) => cylinderSeries(assessed, measure, c)),
      },
    ];
  });
}

function cylinderSeries(assessed: AssessedUnit, measure: JudgedMeasure, told: CylinderAssessment): CylinderSeries {
  const { state, xNow, telling } = assessed;
  const own = state.cylinders[told.cylinder - 1]?.measures.find((m) => m.measure === measure);
  const assessment = told.measures.find((m) => m.measure === measure);
  const { scale } = state.wear[measure];
  const sign = worseSign[measure];
  const crossing = assessment?.crossing ?? null;
  // The unit's meter and the engine's wear meter differ by a constant from now on.
  const toX = (meter: number | null) => (meter === null ? null : meter - telling.meterNow + xNow);
  const horizon = distanceWithin(telling.use, telling.horizonDays);
  const reach = crossing?.meter.p90 ?? null;
  const length =
    reach === null ? horizon : Math.min(horizon, Math.max(1.25 * (reach - telling.meterNow), 0.1 * horizon));
  return {
    cylinder: told.cylinder,
    band: assessment?.band ?? null,
    limit: assessment?.limit ?? null,
    level: assessment?.level ?? null,
    points: chartPoints(assessed, measure, told.cylinder),
    fan:
      own === undefined || !own.wear.enough || length <= 0
        ? []
        : Array.from({ length: fanSteps + 1 }, (_, i) => {
            const ahead = (length * i) / fanSteps;
            const q = levelQuantilesAhead(own.wear.branches, scale, ahead).map((v) =>
              roundedReading(measure, onScale(measure, sign * v)),
            );
            if (sign < 0) q.reverse();
            const [p10 = 0, p25 = 0, p50 = 0, p75 = 0, p90 = 0] = q;
            return { x: rounded(xNow + ahead, 1), p10, p25, p50, p75, p90 };
          }),
    crossing,
    crossingX:
      crossing === null || crossing.meter.p10 === null
        ? null
        : { p10: toX(crossing.meter.p10), p50: toX(crossing.meter.p50), p90: toX(crossing.meter.p90) },
  };
}

function chartPoints(assessed: AssessedUnit, measure: JudgedMeasure, cylinder: number): ChartPoint[] {
  const { conditioned, wear } = assessed.state;
  const pool = wear[measure].pool;
  const starts = wearLives(conditioned.history).flatMap((l) =>
    l.cylinder === cylinder && l.startedBy !== null ? [l.startedBy] : [],
  );
  const points: ChartPoint[] = [];
  for (const { test, weights, doubts } of conditioned.tests) {
    if (test.measure !== measure) continue;
    const index = test.readings.findIndex((r) => r.cylinder === cylinder);
    const reading = test.readings[index];
    if (reading === undefined) continue;
    const doubt = doubts.find((d) => d.weight < 1 && (d.cylinder === null || d.cylinder === cylinder));
    points.push({
      x: test.x,
      date: test.date,
      value: roundedReading(measure, reading.value),
      entered: enteredReading(measure, reading),
      sd: roundedReading(
        measure,
        Math.hypot(
          pool.testSd,
          pool.readingSd,
          pool.readingShare * Math.abs(reading.value),
          reading.referralSd,
          reading.roundingSd,
        ),
      ),
      weight: weights[index] ?? 0,
      life: starts.filter((repair) => madeAfter(test, repair)).length,
      doubt: doubt?.words ?? null,
    });
  }
  return points;
}

/** A reading as entered, in its measure's own unit: only the unit of pressure changes, and held pressure becomes a share. */
function enteredReading(measure: JudgedMeasure, reading: SealedReading): number | null {
  const { enteredValue: value, enteredUnit: unit, enteredSupply: supply } = reading;
  if (unit === "%") return roundedReading(measure, value);
  if (measure === "compression-dry") return roundedReading(measure, toKpa(value, unit));
  return supply === null || supply <= 0 ? null : roundedReading(measure, (100 * (supply - value)) / supply);
}

/** The table of tests, newest first: what was entered beside what it was made into. */
export function testLines({ state }: AssessedUnit): TestLine[] {
  return state.conditioned.tests.toReversed().map(({ test, weights, doubts }) => ({
    date: test.date,
    unit: test.unit,
    meter: test.meter,
    x: test.x,
    measure: test.measure,
    attempt: test.attempt,
    depot: test.depot,
    setUp: test.setUp,
    instrument: test.instrument,
    testedBy: test.testedBy,
    entered: test.readings.map((r, i) => ({
      cylinder: r.cylinder,
      value: r.enteredValue,
      valueUnit: r.enteredUnit,
      supply: r.enteredSupply,
      referred: roundedReading(test.measure, r.value),
      weight: weights[i] ?? 0,
      heardAt: r.heardAt,
      order: r.order,
      remarks: r.remarks,
    })),
    referral: test.referral,
    doubts: [...new Set(doubts.map((d) => d.words))],
    file: test.file,
    line: test.readings[0]?.line ?? 0,
  }));
}

/** Checks of the engine, newest first. */
export function checkLines({ state }: AssessedUnit): CheckLine[] {
  return state.conditioned.history.checks
    .map(({ x: _x, ...line }) => line)
    .toSorted((a, b) => (a.date < b.date ? 1 : a.date > b.date ? -1 : 0));
}

/** Repairs, engine changes and improvements that nobody explained, as marks along the axis; ascending. */
export function repairMarks({ state, unit, telling }: AssessedUnit, causeName: (cause: Cause) => string): RepairMark[] {
  const { history, improvements } = state.conditioned;
  const all = unit.model.cylinders;
  const which = (cylinders: readonly number[]) =>
    all > 1 && cylinders.length === all ? "all cylinders" : cylinderWords(cylinders);
  const repairs = history.repairs.map(
    (r): RepairMark => ({
      unit: r.unit,
      date: r.date,
      x: r.x,
      meter: r.meter,
      scope: r.scope,
      cylinders: r.cylinders,
      words: [
        r.scope === "engine-swap" ? scopeWords[r.scope] : `${scopeWords[r.scope]}, ${which(r.cylinders)}`,
        ...foundWords(r, causeName),
        ...(r.remarks === null ? [] : [r.remarks]),
      ].join("; "),
      cost: r.cost,
      labourHours: r.labourHours,
      downtimeDays: r.downtimeDays,
    }),
  );
  // An engine that a swap brought into the only unit that it is known in has one fitting, and its chart shows it too.
  const isSwapIn = ({ unit: into, fromDate }: Fitting) =>
    history.repairs.some((r) => r.scope === "engine-swap" && r.unit === into && r.date === fromDate);
  const swaps = history.fittings
    .filter((f, i) => i > 0 || isSwapIn(f))
    .map(
      (f): RepairMark => ({
        unit: f.unit,
        // A fitting without a date has one by what was done first in it: its first test there, else today.
        date: f.fromDate ?? history.tests.find((t) => t.unit === f.unit)?.date ?? telling.asOf,
        x: f.fromX,
        meter: f.fromX - unit.engineOffset - unit.offset,
        scope: "engine-swap",
        cylinders: [],
        words: `this engine fitted to ${f.unit}`,
        cost: null,
        labourHours: null,
        downtimeDays: null,
      }),
    );
  const assumed = improvements.map(
    (i): RepairMark => ({
      unit: unit.unit,
      date: i.date,
      x: i.afterX,
      meter: i.afterX - unit.engineOffset - unit.offset,
      scope: "assumed",
      cylinders: i.cylinders,
      words: i.words,
      cost: null,
      labourHours: null,
      downtimeDays: null,
    }),
  );
  const marks = [...repairs.filter((r) => r.scope !== "engine-swap"), ...swaps, ...assumed];
  return marks.toSorted((a, b) => a.x - b.x);
}

/** "found: exhaust valve", or by cylinder: "found: cylinder 2 exhaust valve, inlet valve; cylinder 3 sound". */
function foundWords({ found, findings }: EngineRepair, causeName: (cause: Cause) => string): string[] {
  const names = (causes: readonly Cause[]) => causes.map(causeName).join(", ");
  if (findings.length === 0) return found.length === 0 ? [] : [`found: ${names(found)}`];
  const byCylinder = findings.map(({ cylinder, causes }) => `cylinder ${cylinder} ${names(causes) || "sound"}`);
  // What is told of the engine as a whole and of no cylinder.
  const others = found.filter((cause) => !findings.some(({ causes }) => causes.includes(cause)));
  return [`found: ${[...byCylinder, ...(others.length === 0 ? [] : [names(others)])].join("; ")}`];
}
