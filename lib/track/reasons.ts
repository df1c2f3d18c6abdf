import type { AssessedUnit } from "../assess.ts";
import { daysBetween } from "../calendar.ts";
import { diagnoseEngine } from "../cause/diagnose.ts";
import type { CauseTable } from "../cause/table.ts";
import { leakDownLimitsInForce } from "../condition/band.ts";
import { commonPart } from "../condition/common-part.ts";
import type { FamilySpreads } from "../condition/family.ts";
import { faultProbability } from "../condition/fault-probability.ts";
import { isDoubtful } from "../condition/reweigh.ts";
import { measureSeries, worseSign } from "../condition/series.ts";
import { fewestOthers, spoiltShare } from "../condition/shared-error.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import { useQuantile } from "../projection/crossing.ts";
import { distanceWithin } from "../projection/use-ahead.ts";
import type { InstrumentBias } from "../schema/comparison.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { LevelCase, MissReason } from "../schema/track-record.ts";
import { type Cause, type JudgedMeasure, repairClassOf } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { dateWords, meterWords, numberWords, percentWords, probabilityWords, scopeWords } from "../wording.ts";
import type { Life, LifeReading } from "./life.ts";
import { faultBegan, instrumentOff, type Since, sheetOf, unrecordedRepair } from "./since-then.ts";
import { readingQuantiles, readingSd, standardised } from "./told.ts";

export interface MissedForecast {
  readonly assessed: AssessedUnit;
  /** The engine as it is known now. */
  readonly now: ConditionedEngine;
  /** Evidence of causes by which the forecast told its limit: what came is diagnosed by the same. */
  readonly table: CauseTable;
  readonly measure: JudgedMeasure;
  readonly cylinder: number;
  readonly made: IsoDate;
  readonly life: Life;
  readonly came: LifeReading;
  /** Use from the forecast to what came. */
  readonly ahead: number;
  /** Above 0: worse than foretold. */
  readonly z: number;
  /** Where it was about a limit: the one that it was told for. */
  readonly limit?: number;
  /** The test that it was made after, as known now. */
  readonly from: SealedTest;
  /** Instruments that read off, by all tests of the fleet that are known now. */
  readonly biases: readonly InstrumentBias[];
  /** How cylinders part from their siblings: what an early warning goes by. */
  readonly spreads: FamilySpreads;
}

/** So much more or less use a day than foreseen is another use (judgement). */
const changedUse = Math.log(1.3);
/** Siblings that are off alike by so much, in the middle: it is not of the cylinder alone (judgement). */
const siblingsOff = 1;

/** From this probability on a fault of the set-up is the reason, and so much of its weight such a doubt then takes. */
const decisive = 0.5;
const decisiveWeight = 0.6;
/** Nearer than this to what was told, in standard deviations, a later test is back. */
const backWithin = 1;

/** The rules in order, each with the words of what it found, or null. */
const rules: readonly (readonly [MissReason, (missed: MissedForecast & Since) => string | null])[] = [
  ["limit-changed", changedLimit],
  ["instrument-off", (missed) => instrumentOff(missed, missed.biases)],
  ["set-up", doubtOf],
  ["wrong-cause", otherCause],
  ["repaired-early", repairedEarly],
  ["repair-not-recorded", unrecordedRepair],
  ["use-changed", otherUse],
  ["scatter", cameBack],
  ["fault-began", (missed) => faultBegan(missed, missed.spreads)],
  ["within-scatter", withinScatter],
];

/**
 * Why a forecast missed, by what the facts tell, the first rule that holds: the limit became another; the test that it
 * rested on or the one that came was made with an instrument that reads off on every engine, or was more likely spoilt by its
 * set-up than not, by all tests that are known now; a strip-down found another class of cause; a repair came first; the
 * cylinder got better at once with no repair on file; the unit worked otherwise than foreseen; the next test was back where it
 * was foretold, so that this one had scattered; a fault began later; it lay no further beyond the range than tests scatter;
 * else the rate changed, of the cylinder or of all. Engineering judgement: two of these may be true at once, and none is
 * proof.
 */
export function reasonOf(missed: MissedForecast): NonNullable<LevelCase["reason"]> {
  const { assessed, measure, cylinder, ahead, came } = missed;
  const engine = assessed.state.wear[measure];
  const wear = engine.cylinders.find((c) => c.cylinder === cylinder);
  const told = wear === undefined ? [] : readingQuantiles(wear.branches, engine.pool, engine.scale, ahead, came);
  const of = { ...missed, likely: told[(told.length - 1) / 2] ?? came.badness };
  for (const [code, rule] of rules) {
    const words = rule(of);
    if (words !== null) return { code, words };
  }
  const pace = missed.z > 0 ? "faster" : "more slowly";
  const who = siblingsToo(missed) ? "All cylinders got" : "It got";
  return { code: "rate-changed", words: `${who} worse ${pace} than its tests up to ${dateWords(missed.made)} said` };
}

function changedLimit({ now, table, measure, cylinder, limit }: MissedForecast): string | null {
  const { leakDown } = now.history.model;
  if (limit === undefined || measure !== "leak-down" || leakDown?.valves === undefined) return null;
  const asOf = now.tests.at(-1)?.test.date;
  const diagnosis =
    asOf === undefined ? undefined : diagnoseEngine(now, { asOf, table }).find((d) => d.cylinder === cylinder);
  if (diagnosis === undefined) return null;
  const inForce = leakDownLimitsInForce(leakDown, diagnosis).limitPercent;
  return inForce === limit ? null : `The limit was ${numberWords(limit)} %, now ${numberWords(inForce)} % is in force`;
}

function doubtOf({ now, measure, cylinder, made, came, z }: MissedForecast): string | null {
  for (const [date, isIt, worse] of [
    // A test that read too bad foretells too bad: what comes is better.
    [made, (test: SealedTest) => test.measure === measure && test.date === made, z < 0],
    [came.date, (test: SealedTest) => test === came.test, z > 0],
  ] as const) {
    const at = now.tests.findLastIndex(({ test }) => isIt(test) && test.readings.some((r) => r.cylinder === cylinder));
    const found = now.tests[at];
    if (found === undefined) continue;
    const doubts = found.doubts.filter((d) => isDoubtful(d) && (d.cylinder === null || d.cylinder === cylinder));
    const [heaviest] = doubts.toSorted((a, b) => a.weight - b.weight);
    if (heaviest !== undefined && doubts.reduce((left, d) => left * d.weight, 1) <= decisiveWeight) {
      return `The test of ${dateWords(date)} is doubted: ${heaviest.words}`;
    }
    const probability = spoiltProbability(now, at, worse);
    if (probability >= decisive) {
      const side = worse ? "worse" : "better";
      return `All cylinders read ${side} on ${dateWords(date)} than their other tests let expect: set-up or tester (${probabilityWords(probability)})`;
    }
  }
  return null;
}

/** How likely a whole test was spoilt to that side, beside all tests before and after it that are known now. */
function spoiltProbability(now: ConditionedEngine, at: number, worse: boolean): number {
  const { history } = now;
  const { measure } = history.tests[at] as SealedTest;
  if (measure === "compression-wet") return 0;
  const sheet = sheetOf(now);
  const series = measureSeries(history, measure);
  const part = commonPart(sheet, series, series.tests.indexOf(at), fewestOthers, new Set());
  if (part === null || !part.together || part.deviation > 0 !== worse) return 0;
  return faultProbability({ measure, size: part.deviation, sd: part.sd, level: part.level }, spoiltShare);
}

/** Siblings of the test that came, each beside what was told of it, are off to the same side in the middle. */
function siblingsToo({ assessed, measure, cylinder, came, ahead, z }: MissedForecast): boolean {
  const engine = assessed.state.wear[measure];
  const siblings = came.test.readings.flatMap((reading) => {
    const wear = engine.cylinders.find((c) => c.cylinder === reading.cylinder);
    if (wear === undefined || !wear.enough || reading.cylinder === cylinder) return [];
    const told = readingQuantiles(wear.branches, engine.pool, engine.scale, ahead, came);
    return [standardised(told, worseSign[measure] * reading.value)];
  });
  return siblings.length >= 2 && median(siblings.map((s) => s * Math.sign(z))) >= siblingsOff;
}

/** The cylinder's next reading lies where the same forecast foretold it. */
function cameBack({ assessed, measure, cylinder, came, life, ahead, z }: MissedForecast): string | null {
  const next = life.readings.find(({ x, date }) => x >= came.x && date > came.date);
  const engine = assessed.state.wear[measure];
  const wear = engine.cylinders.find((c) => c.cylinder === cylinder);
  if (next === undefined || wear === undefined) return null;
  const told = readingQuantiles(wear.branches, engine.pool, engine.scale, ahead + next.x - came.x, next);
  // As far off on the other side it is not back either.
  if (Math.abs(standardised(told, next.badness)) >= backWithin) return null;
  const side = z > 0 ? "worse" : "better";
  return `Read ${side} than foretold on ${dateWords(came.date)} alone: the test of ${dateWords(next.date)} was back`;
}

/** Of what came, the reading's own error about the true level: no further beyond the 90 % range than that. */
function withinScatter({ assessed, measure, cylinder, came, ahead, limit }: MissedForecast): string | null {
  if (limit !== undefined) return null;
  const { pool, scale, cylinders } = assessed.state.wear[measure];
  const wear = cylinders.find((c) => c.cylinder === cylinder);
  if (wear === undefined) return null;
  const told = readingQuantiles(wear.branches, pool, scale, ahead, came);
  const [low, high] = [told[0] as number, told.at(-1) as number];
  const beyond = Math.max(came.badness - high, low - came.badness);
  const level = Math.abs(came.badness);
  const sd = Math.hypot(readingSd(pool, level), came.roundingSd, came.referralShare * level);
  if (beyond > sd) return null;
  const size = (value: number) =>
    measure === "leak-down" ? `${numberWords(value, 1)} points` : `${numberWords(value)} kPa`;
  return `Only ${size(Math.max(0, beyond))} beyond its range, where a reading repeats to ${size(sd)}`;
}

function otherCause({ assessed, now, cylinder, made, z }: MissedForecast): string | null {
  const told = assessed.state.diagnoses.find((d) => d.cylinder === cylinder);
  if (told === undefined || told.topEnd === told.bottomEnd) return null;
  const leading = told.topEnd > told.bottomEnd ? "top-end" : "bottom-end";
  for (const repair of now.history.repairs) {
    if (repair.date < made || !repair.cylinders.includes(cylinder)) continue;
    const own = repair.findings.find((f) => f.cylinder === cylinder);
    const found = own?.causes ?? (repair.findings.length > 0 ? [] : repair.found);
    if (own !== undefined && own.causes.length === 0 && z < 0) {
      return `Opened on ${dateWords(repair.date)} and found sound; told mostly ${leading}`;
    }
    const classes = new Set(found.map((cause: Cause) => repairClassOf[cause]));
    if (classes.size > 0 && !classes.has(leading)) {
      return `Told mostly ${leading}; the ${scopeWords[repair.scope]} of ${dateWords(repair.date)} found ${[...found].join(", ")}`;
    }
  }
  return null;
}

function repairedEarly({ assessed, measure, cylinder, made, life, came }: MissedForecast): string | null {
  if (life.repair === null || came !== life.readings.at(-1)) return null;
  const state = assessed.state.cylinders
    .find((c) => c.diagnosis.cylinder === cylinder)
    ?.measures.find((m) => m.measure === measure);
  const early = state?.distribution ? useQuantile(state.distribution, 0.1) : null;
  const days = daysBetween(made, life.repair.date);
  const { use } = assessed.telling;
  if (early !== null && distanceWithin(use, days) >= early) return null;
  return `Repaired on ${dateWords(life.repair.date)}, before the early end of its window`;
}

function otherUse({ assessed, made, came, ahead }: MissedForecast): string | null {
  const days = daysBetween(made, came.date);
  if (ahead <= 0 || days <= 0) return null;
  const perDay = distanceWithin(assessed.telling.use, days) / days;
  if (perDay <= 0) return null;
  const ratio = ahead / days / perDay;
  if (Math.abs(Math.log(ratio)) < changedUse) return null;
  const change = percentWords(Math.abs(100 * (ratio - 1)));
  const year = (use: number) => meterWords(use * 365, assessed.unit.meterUnit);
  return `Worked ${change} ${ratio > 1 ? "more" : "less"} than foreseen: ${year(ahead / days)} a year, not ${year(perDay)}`;
}
