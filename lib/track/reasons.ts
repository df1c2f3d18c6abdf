import type { AssessedUnit } from "../assess.ts";
import { daysBetween } from "../calendar.ts";
import { diagnoseEngine } from "../cause/diagnose.ts";
import type { CauseTable } from "../cause/table.ts";
import { leakDownLimitsInForce } from "../condition/band.ts";
import { worseSign } from "../condition/series.ts";
import type { ConditionedEngine } from "../condition/types.ts";
import { useQuantile } from "../projection/crossing.ts";
import { distanceWithin } from "../projection/use-ahead.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { LevelCase, MissReason } from "../schema/track-record.ts";
import { type Cause, type JudgedMeasure, repairClassOf } from "../schema/words.ts";
import type { SealedTest } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { dateWords, meterWords, numberWords, percentWords, scopeWords } from "../wording.ts";
import type { Life, LifeReading } from "./life.ts";
import { readingQuantiles, standardised } from "./told.ts";

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
}

/** So much more or less use a day than foreseen is another use (judgement). */
const changedUse = Math.log(1.3);
/** Siblings that are off alike by so much, in the middle, speak for the test and not for the cylinder (judgement). */
const siblingsOff = 1;

/**
 * Why a forecast missed, by what the facts tell, the first rule that holds: the limit became another; the test that it
 * rested on or the one that came is doubted, or is off in all cylinders alike; a strip-down found another class of cause;
 * a repair came first; the unit worked otherwise than foreseen; else the cylinder's rate changed. Engineering judgement: two
 * of these may be true at once, and none is proof.
 */
export function reasonOf(missed: MissedForecast): NonNullable<LevelCase["reason"]> {
  const reason = (code: MissReason, words: string) => ({ code, words });
  const limit = changedLimit(missed);
  if (limit !== null) return reason("limit-changed", limit);
  const setUp = doubtOf(missed);
  if (setUp !== null) return reason("set-up", setUp);
  const cause = otherCause(missed);
  if (cause !== null) return reason("wrong-cause", cause);
  const early = repairedEarly(missed);
  if (early !== null) return reason("repaired-early", early);
  const use = otherUse(missed);
  if (use !== null) return reason("use-changed", use);
  const pace = missed.z > 0 ? "faster" : "more slowly";
  return reason("rate-changed", `It got worse ${pace} than its tests up to ${dateWords(missed.made)} said`);
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

function doubtOf({ assessed, now, measure, cylinder, made, came, ahead, z }: MissedForecast): string | null {
  const weightOf = (isIt: (test: SealedTest) => boolean) => {
    const found = now.tests.findLast(({ test }) => isIt(test) && test.readings.some((r) => r.cylinder === cylinder));
    if (found === undefined) return null;
    const weight = found.weights[found.test.readings.findIndex((r) => r.cylinder === cylinder)] ?? 0;
    const doubt = found.doubts.find((d) => d.weight < 1 && (d.cylinder === null || d.cylinder === cylinder));
    return { weight, words: doubt?.words ?? "" };
  };
  const base = weightOf((test) => test.measure === measure && test.date === made);
  if (base !== null && base.weight < 0.5) return `The test of ${dateWords(made)} is doubted: ${base.words}`;
  const later = weightOf((test) => test === came.test);
  if (later !== null && later.weight < 1) return `The test of ${dateWords(came.date)} is doubted: ${later.words}`;
  // Siblings of the same test, each beside what was told of it.
  const engine = assessed.state.wear[measure];
  const siblings = came.test.readings.flatMap((reading) => {
    const wear = engine.cylinders.find((c) => c.cylinder === reading.cylinder);
    if (wear === undefined || !wear.enough || reading.cylinder === cylinder) return [];
    const told = readingQuantiles(wear.branches, engine.pool, engine.scale, ahead, came);
    return [standardised(told, worseSign[measure] * reading.value)];
  });
  if (siblings.length < 2 || median(siblings.map((s) => s * Math.sign(z))) < siblingsOff) return null;
  const side = z > 0 ? "worse" : "better";
  return `All cylinders read ${side} than foretold in the test of ${dateWords(came.date)}: set-up or tester`;
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
