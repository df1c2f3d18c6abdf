import { addDays } from "../calendar.ts";
import { worseSign } from "../condition/series.ts";
import { repeatability } from "../repeatability.ts";
import type { SharedStep, TesterCourse } from "../schema/comparison.ts";
import { type JudgedMeasure, judgedMeasures } from "../schema/words.ts";
import { studentTQuantile } from "../statistics/student-t.ts";
import { chainsOf, type Link } from "./shared-steps.ts";

/** Of the engines' own tests by others, or of so many sisters, at least. */
const fewestEngines = 4;
/** What moved by less than this share of what the step would bring did not move along. Judgement. */
const movedAlong = 0.5;
/** One-sided, that it moved by less. */
const surely = 0.975;
const eachSide = 3;
/** Later or earlier tests are of another time. */
const sameTimeDays = 2 * 365;
/** Sisters that are asked at most: the first by name, so that a large fleet is not read whole. */
const mostSisters = 200;
/** In per cent of compression for a point of leakage: the 20 points that a valve comes to cost some 8 % (common practice). */
const compressionPerPoint = 0.4;

/** Whether the step goes the way that wear goes. */
export const isTowardsWear = ({ measure, mean }: SharedStep): boolean => Math.sign(mean) === worseSign[measure];

/** The units whose courses say whether a step is wear: its own, and others of their kinds. `kinds`: the units of each. */
export function witnessesOf({ units }: SharedStep, kinds: readonly (readonly string[])[]): readonly string[] {
  const own = new Set(units);
  const sisters = kinds.filter((of) => of.some((unit) => own.has(unit))).flat();
  const others = [...new Set(sisters)].filter((unit) => !own.has(unit)).toSorted();
  return [...units, ...others.slice(0, mostSisters)];
}

/**
 * Whether something speaks against it that a step towards the worse is wear: on the same engines and in the same time
 * other instruments did not move along, or the other measure did not; or sisters did not that were read with others. Each is
 * told from raw changes, so that common wear counts as moving along. Where nothing can be compared: false.
 *
 * @param courses of both measures, of `witnessesOf` the step; others are not looked at
 */
export function isNotWear(step: SharedStep, courses: readonly TesterCourse[], witnesses: readonly string[]): boolean {
  const [own, asked] = [new Set(step.units), new Set(witnesses)];
  const ofStep = courses.filter(({ unit }) => own.has(unit));
  const ofSisters = courses.filter(({ unit }) => asked.has(unit) && !own.has(unit));
  const size = Math.abs(step.middle ?? step.mean);
  const other = judgedMeasures.find((measure) => measure !== step.measure) as JudgedMeasure;
  const alongside = other === "leak-down" ? size / compressionPerPoint : size * compressionPerPoint;
  return (
    stoodStill(step, step.measure, ofStep, size) ||
    stoodStill(step, other, ofStep, alongside) ||
    stoodStill(step, step.measure, ofSisters, size)
  );
}

/** Whether what other instruments read got worse by less than half of `size`, surely. */
function stoodStill(step: SharedStep, measure: JudgedMeasure, courses: readonly TesterCourse[], size: number): boolean {
  const byEngine = new Map<string, number[]>();
  const ofMeasure = courses.filter((course) => course.measure === measure);
  for (const chain of chainsOf(measure, ofMeasure)) {
    const links = chain.filter((link) => link.instrument !== null && !isOfStep(step, measure, link));
    for (const key of new Set(links.map(testerOf))) {
      const change = changeAt(
        step.date,
        links.filter((link) => testerOf(link) === key),
      );
      if (change === null) continue;
      const engine = (links[0] as Link).engine;
      byEngine.set(engine, [...(byEngine.get(engine) ?? []), worseSign[measure] * change]);
    }
  }
  const worse = [...byEngine.values()].map(meanOf);
  if (worse.length < fewestEngines) return false;
  const mean = meanOf(worse);
  const scatter = Math.sqrt(worse.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (worse.length - 1));
  const least = repeatability(measure, measure === "leak-down" ? 0 : 100).shared;
  const error = Math.max(scatter, least) / Math.sqrt(worse.length);
  return mean + studentTQuantile(surely, worse.length - 1) * error < movedAlong * size;
}

/** Tests that the step may have spoilt. A depot's other measure is read with other tools, unless they bear the same name. */
function isOfStep({ measure, of, name, newInstruments }: SharedStep, asked: JudgedMeasure, link: Link): boolean {
  if (of === "instrument") return link.instrument === name;
  const isNew = newInstruments.includes(link.instrument as string);
  return isNew || (asked === measure && newInstruments.length === 0 && link.depot === name);
}

const testerOf = ({ instrument, orificeMm }: Link): string => `${instrument} ${orificeMm}`;

function changeAt(date: string, links: readonly Link[]): number | null {
  const [from, to] = [addDays(date, -sameTimeDays), addDays(date, sameTimeDays)];
  const before = links.filter((link) => link.date >= from && link.date < date).slice(-eachSide);
  const after = links.filter((link) => link.date >= date && link.date <= to).slice(0, eachSide);
  if (before.length === 0 || after.length === 0) return null;
  return meanOf(after.map(({ value }) => value)) - meanOf(before.map(({ value }) => value));
}

const meanOf = (some: readonly number[]): number => some.reduce((sum, one) => sum + one, 0) / some.length;
