import type { EngineModel, LeakDownLimits } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import { type Band, bands, type JudgedMeasure, type Place } from "../schema/words.ts";
import {
  dateWords,
  enteredDecimals,
  kpaWords,
  monthCountWords,
  numberWords,
  percentWords,
  probabilityWords,
} from "../wording.ts";

export interface MeasureEvidence {
  readonly measure: JudgedMeasure;
  /** Estimate of the true value now: kPa at sea level, or % on the model's usual tester. */
  readonly level: number;
  /** `minimumKpa`, or the limit of leakage in force. */
  readonly limit: number;
  /** Of the limits in force; null for compression, which has none. */
  readonly watchPercent: number | null;
  readonly planPercent: number | null;
  /** Of meeting the limit within the planning lead time; null: too few tests to say. */
  readonly probabilityWithinLeadTime: number | null;
  /** null: no rule on spread, or not compression. */
  readonly spread: Spread | null;
  /** An early warning in words (lib/condition/early-warning.ts); null or absent: none. */
  readonly earlyWarning?: string | null;
  /** That the last test of few is either spoilt or shows a step, in words; null or absent: not so. */
  readonly unsettled?: string | null;
  /** What was read at the last test, where the limit has been met only since; null or absent: not so. */
  readonly crossedAfter?: { readonly date: IsoDate; readonly level: number } | null;
  readonly settings: Pick<AssessmentSettings, "leadTimeMonths" | "planProbability" | "watchProbability">;
}

/**
 * The band of one cylinder by one measure, and why, in words (contract, section 5). It is judged on the level, never on
 * one reading: past the limit when the level is at or past it or the spread rule is broken; else to plan for, or to watch,
 * by the level, by the chance to meet the limit within the lead time, or (watch alone) by an early warning or a last test of few that nobody can tell from a step.
 */
export function bandOfMeasure(evidence: MeasureEvidence): { readonly band: Band; readonly reason: string } {
  const { measure, level, limit, watchPercent, planPercent, probabilityWithinLeadTime, spread, settings } = evidence;
  const leakDown = measure === "leak-down";
  const chance = probabilityWithinLeadTime ?? 0;
  const told = (...thresholds: (number | null)[]) => levelWords(leakDown, level, thresholds);
  const limitFigure = numberWords(limit, enteredDecimals(limit));
  const toLimit = `${told(limit)}, ${leakDown ? `limit ${limitFigure}` : `minimum ${limitFigure} kPa`}`;
  const within = `within ${monthCountWords(settings.leadTimeMonths)}`;
  const byChance = `${toLimit}; chance to cross ${within} ${probabilityWords(chance)}`;
  const from = (word: string, threshold: number, ...others: number[]) =>
    `${told(threshold, ...others)}, ${word} from ${numberWords(threshold, enteredDecimals(threshold))}`;
  const limitWords = `limit ${limitFigure}`;
  const warned = (reason: string) => (evidence.earlyWarning ? `${reason}; ${evidence.earlyWarning}` : reason);

  if (leakDown ? level >= limit : level <= limit) {
    const { crossedAfter } = evidence;
    const reason = crossedAfter == null ? toLimit : `${toLimit}; ${crossedAfterWords(crossedAfter, measure, limit)}`;
    return { band: "past-limit", reason };
  }
  if (spread?.breached) return { band: "past-limit", reason: spread.words };
  if (planPercent !== null && level >= planPercent) {
    return { band: "plan", reason: `${from("plan", planPercent, limit)}, ${limitWords}` };
  }
  if (chance >= settings.planProbability) return { band: "plan", reason: byChance };
  if (watchPercent !== null && level >= watchPercent) {
    return { band: "watch", reason: warned(`${from("watch", watchPercent, limit)}, ${limitWords}`) };
  }
  if (chance >= settings.watchProbability) return { band: "watch", reason: warned(byChance) };
  if (evidence.earlyWarning) return { band: "watch", reason: evidence.earlyWarning };
  if (evidence.unsettled) return { band: "watch", reason: evidence.unsettled };
  return { band: "sound", reason: watchPercent === null ? toLimit : from("watch", watchPercent) };
}

/** "probably past it by now: 17 % when last tested, on 3 May 2026" */
function crossedAfterWords(
  { date, level }: { readonly date: IsoDate; readonly level: number },
  measure: JudgedMeasure,
  limit: number,
): string {
  const then = levelWords(measure === "leak-down", level, [limit]).replace("leakage ", "");
  return `probably past it by now: ${then} when last tested, on ${dateWords(date)}`;
}

/** The worst of some bands; null where none is known (never tested). */
export function worstBand(some: readonly (Band | null)[]): Band | null {
  return bands.findLast((band) => some.includes(band)) ?? null;
}

/**
 * "leakage 22 %", "1,010 kPa": whole figures, but never so rounded that the level seems to stand on the other side of a
 * threshold named beside it ("17.8 %, plan from 18", not "18 %").
 */
function levelWords(leakDown: boolean, level: number, thresholds: readonly (number | null)[]): string {
  const sameSide = (digits: number) =>
    thresholds.every((t) => t === null || Math.sign(Number(level.toFixed(digits)) - t) === Math.sign(level - t));
  const decimals = [0, 1, 2].find(sameSide) ?? 3;
  return leakDown ? `leakage ${numberWords(level, decimals)} %` : `${numberWords(level, decimals)} kPa`;
}

/** Places at which air that passes a valve or the gasket is heard; air always passes rings to the crankcase a little. */
const topEndPlaces: readonly Place[] = ["inlet", "exhaust", "coolant"];

/**
 * The limits of leakage that hold for a cylinder: the model's tighter ones for valves while its fault is more probably
 * top-end than not and air was heard at inlet, exhaust or coolant; else the usual ones (contract, section 4).
 */
export function leakDownLimitsInForce(
  leakDown: NonNullable<EngineModel["leakDown"]>,
  { topEnd, heardAt }: { readonly topEnd: number; readonly heardAt: readonly Place[] },
): LeakDownLimits {
  const heard = heardAt.some((place) => topEndPlaces.includes(place));
  return leakDown.valves !== undefined && topEnd > 0.5 && heard ? leakDown.valves : leakDown;
}

export interface Spread {
  /** The cylinder lies further below the others than the model allows, which puts it past the limit. */
  readonly breached: boolean;
  /** "880 kPa, 27 % below the highest cylinder (1,205 kPa), 25 % allowed" */
  readonly words: string;
}

/**
 * How far each cylinder lies below the highest cylinder, or below the mean of all, by the model's rule (contract,
 * section 4). Empty where the model has no such rule or fewer than two levels are known. One cylinder that reads high (oil
 * or carbon) makes sound ones look low under `of-highest` and `absolute`.
 *
 * @param levelsKpa estimates of the true compression at sea level, kPa, by cylinder
 */
export function spreadBreaches(
  levelsKpa: ReadonlyMap<number, number>,
  compression: NonNullable<EngineModel["compression"]>,
): ReadonlyMap<number, Spread> {
  const spreads = new Map<number, Spread>();
  const levels = [...levelsKpa.values()];
  if (levels.length < 2) return spreads;
  const { spreadRule, spreadPercent, spreadKpa } = compression;
  const ofMean = spreadRule === "of-mean";
  const reference = ofMean ? levels.reduce((sum, v) => sum + v, 0) / levels.length : Math.max(...levels);
  const referenceWords = `below the ${ofMean ? "mean of all cylinders" : "highest cylinder"} (${kpaWords(reference)})`;
  for (const [cylinder, level] of levelsKpa) {
    const belowKpa = reference - level;
    if (spreadRule === "absolute") {
      if (spreadKpa === undefined) continue;
      const words = `${kpaWords(level)}, ${kpaWords(belowKpa)} ${referenceWords}, ${kpaWords(spreadKpa)} allowed`;
      spreads.set(cylinder, { breached: belowKpa > spreadKpa, words });
    } else if (spreadPercent !== undefined) {
      const belowPercent = (100 * belowKpa) / reference;
      const words = `${kpaWords(level)}, ${percentWords(belowPercent)} ${referenceWords}, ${percentWords(spreadPercent)} allowed`;
      spreads.set(cylinder, { breached: belowPercent > spreadPercent, words });
    }
  }
  return spreads;
}
