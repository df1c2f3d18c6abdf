import type { MeasureAssessment, UnitAssessment } from "../schema/assessment.ts";
import type { ChartPoint, MeasureChart } from "../schema/report.ts";
import type { MeterUnit } from "../schema/words.ts";
import { meterWords, numberWords, sentenceWords } from "../wording.ts";
import { weakestPlace } from "./weakest.ts";

/** Half of a lower level lies within the scatter of leak-down tests (trade practice: ±2 to 3 points). */
const leastDoubledPercent = 10;
/** Fewer readings of one wear life show no course. */
const fewestReadings = 3;
/** A course that grows so much faster in its later half bends upward; a straight one has 1 here. Judgement. */
const bending = 1.3;
/** A doubling that took longer than this, at the unit's use of today, says less than the rate does. */
const longestDays = 365;

/**
 * How fast the weakest place worsens, as a sentence: what the leakage needs to double where the readings show a doubling that
 * the fitted rate bears out, a step between the last two, else the fitted rate. null: the place does not worsen beyond the scatter of its tests, or they are too few to say.
 */
export function paceOf(assessment: UnitAssessment, charts: readonly MeasureChart[]): string | null {
  const place = weakestPlace(assessment);
  if (place === null) return null;
  const { measure, lead, cylinders } = place;
  const { meter } = assessment;
  if (measure.crossing?.status === "too-few-tests") return null;
  const of = cylinders.length > 1 ? ` of cylinder ${lead.cylinder}` : "";
  const series = charts.find((c) => c.measure === measure.measure)?.cylinders.find((c) => c.cylinder === lead.cylinder);
  const seen = measure.unit === "%" && series !== undefined ? lastDoubling(series.points, measure.level) : null;
  const doubling = seen === null ? null : byRate(seen, measure);
  if (doubling !== null && doubling.distance <= longestDays * meter.perDay) {
    const distance = meterWords(roughly(doubling.distance), meter.unit);
    return doubling.bends
      ? `Leakage${of} doubles every ${distance}.`
      : `Leakage${of} has doubled over the last ${distance}.`;
  }
  const step = measure.unit === "%" && series !== undefined ? lastStep(series.points) : null;
  if (step !== null) {
    return `Leakage${of} rose from ${numberWords(step.from)} to ${numberWords(step.to)} % between its last two tests.`;
  }
  const change = worsens(measure) ? changeWords(measure, meter.unit) : null;
  return change === null ? null : sentenceWords(`${measure.unit === "%" ? "leakage" : "compression"}${of} ${change}.`);
}

/** Whether the whole 8-in-10 range of the rate lies on the bad side. */
function worsens({ rate, unit }: MeasureAssessment): boolean {
  if (rate === null) return false;
  return unit === "%" ? rate.p10 > 0 : rate.p90 < 0;
}

/**
 * The distance over which the leakage went from half of its level to the level, by the used readings of the present
 * life, straight between them. null: they do not reach back to the half of it.
 */
function lastDoubling(points: readonly ChartPoint[], level: number | null) {
  if (level === null || level < leastDoubledPercent) return null;
  const used = usedOf(points);
  const last = used.at(-1);
  if (last === undefined || used.length < fewestReadings) return null;
  const top = { x: last.x, value: level };
  const course = [...used.slice(0, -1), top];
  const half = lastBelow(course, level / 2);
  if (half === null || half >= top.x) return null;
  // Between two readings alone nobody saw a course.
  if (course.filter((knot) => knot.x > half).length < 2) return null;
  const middle = valueAt(course, (half + top.x) / 2);
  return { distance: top.x - half, bends: top.value - middle > bending * (middle - level / 2) };
}

/** What was read and what was fitted must come to the same distance within this factor to be told as a doubling. Judgement. */
const borneOutWithin = 2;

/**
 * The distance of a doubling by the fitted rate, which the page tells beside it: of a course that bends, what grows by that
 * share takes; of a straight one, what half of the level takes. null: the rate is not sure, or the readings say otherwise.
 */
function byRate(seen: { readonly distance: number; readonly bends: boolean }, measure: MeasureAssessment) {
  const { rate, level } = measure;
  if (rate === null || level === null || !worsens(measure)) return null;
  const distance = ((seen.bends ? Math.LN2 : 1 / 2) * level) / (rate.perThousand / 1000);
  const isBorneOut = distance <= borneOutWithin * seen.distance && seen.distance <= borneOutWithin * distance;
  return isBorneOut ? { distance, bends: seen.bends } : null;
}

/** The least that a leakage must rise between two readings to be told as a step, in points. Judgement. */
const leastStepPoints = 8;

/** The last two used readings of the present life, where the leakage at least doubled between them; null: it did not. */
function lastStep(points: readonly ChartPoint[]): { readonly from: number; readonly to: number } | null {
  const [before, last] = usedOf(points).slice(-2);
  if (before === undefined || last === undefined) return null;
  const isStep =
    last.value >= leastDoubledPercent && last.value >= 2 * before.value && last.value - before.value >= leastStepPoints;
  return isStep ? { from: before.value, to: last.value } : null;
}

/** The used readings of the present wear life, ascending. */
function usedOf(points: readonly ChartPoint[]): readonly ChartPoint[] {
  const life = points.at(-1)?.life;
  return points.filter((p) => p.life === life && p.weight > 0).toSorted((a, b) => a.x - b.x);
}

interface Knot {
  readonly x: number;
  readonly value: number;
}

/** Where the course last rose through a value; null: it never lay below it. */
function lastBelow(course: readonly Knot[], value: number): number | null {
  const i = course.findLastIndex((knot) => knot.value <= value);
  const [before, after] = [course[i], course[i + 1]];
  if (before === undefined || after === undefined) return null;
  return before.x + ((value - before.value) / (after.value - before.value)) * (after.x - before.x);
}

function valueAt(course: readonly Knot[], x: number): number {
  const i = course.findLastIndex((knot) => knot.x <= x);
  const [before, after] = [course[i], course[i + 1]];
  if (before === undefined) return course[0]?.value ?? 0;
  if (after === undefined) return before.value;
  return before.value + ((x - before.x) / (after.x - before.x)) * (after.value - before.value);
}

/**
 * "rises 0.7 points per 10,000 km", "falls 179 kPa per 1,000 h", with the digits that the page's table has of the same rate;
 * null: too little to be told.
 */
function changeWords({ rate, unit }: MeasureAssessment, meterUnit: MeterUnit): string | null {
  if (rate === null) return null;
  // Kilometres and miles are read by the ten thousand.
  const by = meterUnit === "h" ? 1_000 : 10_000;
  const told = Math.abs(rate.perThousand) * (by / 1_000);
  const decimals = told >= 10 || told === 0 ? 0 : unit === "%" ? 1 : Math.min(4, 1 - Math.floor(Math.log10(told)));
  if (Number(told.toFixed(decimals)) === 0) return null;
  const figure = numberWords(told, decimals);
  return `${unit === "kPa" ? `falls ${figure} kPa` : `rises ${figure} points`} per ${meterWords(by, meterUnit)}`;
}

/** One figure that counts, two where the first is a 1 or 2: a distance from a handful of tests has no more. */
function roughly(value: number): number {
  if (value <= 0) return 0;
  const power = 10 ** Math.floor(Math.log10(value));
  const step = value / power < 3 ? power / 2 : power;
  return Number((Math.round(value / step) * step).toPrecision(3));
}
