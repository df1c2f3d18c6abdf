import { widthFactorWords } from "../../../lib/assessment/width-words.ts";
import {
  type Forecaster,
  fewestOutcomes,
  type Held,
  type IssuedRecord,
  type LevelScore,
  type LimitScore,
  type Range,
  type TrackRecord,
} from "../../../lib/schema/track-record.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";
import { forecasterWords, shareOrCount } from "../../../lib/track/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords, sentenceWords } from "../../../lib/wording.ts";
import type { Split } from "./address.ts";

export const splitNames = {
  ahead: "How far ahead",
  model: "Engine model",
  tester: "Tester",
  depot: "Depot",
} as const satisfies Record<Split, string>;

/** What a forecast is called, at the head of its row. */
export const forecasterName = (forecaster: Forecaster): string => sentenceWords(forecasterWords[forecaster]);

const measuresInText = {
  "leak-down": "leak-down",
  "compression-dry": "compression",
} as const satisfies Record<JudgedMeasure, string>;

/** What the page has found, as its heading. */
export function recordFinding(f: Formats, { forecasts, levels }: TrackRecord): string {
  if (forecasts === 0) return "No forecast can be judged yet.";
  const told = levels.flatMap(({ measure, overall }) => {
    const range = overall.borecast?.coverage?.["80"];
    return range?.share == null ? [] : [`${f.percent(100 * range.share)} of later ${measuresInText[measure]} readings`];
  });
  if (told.length > 0) return `Ranges meant to hold 80 in 100 held ${listWords(told)}.`;
  const outcomes = levels.reduce((sum, { overall }) => sum + (overall.borecast?.outcomes ?? 0), 0);
  return `${f.number(outcomes)} later ${outcomes === 1 ? "test" : "tests"} so far: too few to tell.`;
}

/** "83 %", or "17 of 19" where that is too few for a share. */
export const heldFigure = (f: Formats, held: Pick<Held, "share" | "held" | "of">): string => shareOrCount(held, f);

/** The same of a range of distances: of those that are decided. */
export const rangeFigure = (f: Formats, of: Pick<NonNullable<LimitScore["ranges"]>[Range], Outcome>): string =>
  heldFigure(f, { share: of.share, held: of.held, of: of.held + of.missed });
type Outcome = "share" | "held" | "missed";

/** Median error of the likely distance: a share of the distance that came. */
export function distanceError(f: Formats, { medianError, outcomes }: LimitScore, forecaster: Forecaster): string {
  if (medianError !== null) return f.percent(100 * medianError);
  return outcomes >= fewestOutcomes && forecaster !== "borecast" ? "not foreseen" : "–";
}

/** Said where too few limits have been met to tell shares. */
export function fewLimitsWords(f: Formats, outcomes: number): string {
  const met = outcomes === 0 ? "no limit was" : outcomes === 1 ? "1 limit was" : `${f.number(outcomes)} limits were`;
  return `After forecasts of cylinders below their limit ${met} met and borne out by a second test or a repair. A cylinder that was past it before anything was forecast of it, or by a limit that came into force with what was heard at that test, is no outcome here. From ${fewestOutcomes} on, shares are told; it can’t be told yet how good the distances are. Levels, above, tell sooner.`;
}

/** How many assessments were issued, and for which dates. */
export function issuedWords(f: Formats, { assessments, from, to }: IssuedRecord): string {
  if (from === null || to === null) return "Nothing was issued yet.";
  const dates = from === to ? f.date(from) : `${f.date(from)} to ${f.date(to)}`;
  return assessments === 1
    ? `1 assessment was issued, for ${dates}, and is kept as it was.`
    : `${f.number(assessments)} assessments were issued, for ${dates}, and are kept as they were.`;
}

/** What the record was made from. */
export function madeFromWords(f: Formats, { forecasts, units, asOf }: TrackRecord): string {
  const of =
    units.judged < units.known ? `${f.number(units.judged)} of ${f.number(units.known)}` : f.number(units.judged);
  return `${f.number(forecasts)} ${forecasts === 1 ? "forecast" : "forecasts"} of ${of} ${units.known === 1 ? "unit" : "units"}, made anew as of past tests with only what was known then, held against what came up to ${f.date(asOf)}.`;
}

/** "76–88"; empty: too few to tell. */
export const heldInterval = (f: Formats, { low, high }: Pick<Held, "low" | "high">): string =>
  low === null || high === null ? "" : `${f.number(100 * low)}–${f.number(100 * high)}`;

/** An error of a reading: "1.4 points", "28 kPa". */
export const errorFigure = (f: Formats, value: number | null, unit: "%" | "kPa"): string =>
  value === null ? "–" : unit === "%" ? `${f.number(value, 1)} points` : f.level(value, "kPa");

export const scoreFigure = (f: Formats, value: number | null, digits: number): string =>
  value === null ? "–" : f.number(value, digits);

/** Pinball loss in the unit that the viewer reads. */
export const pinballFigure = (f: Formats, score: LevelScore, unit: "%" | "kPa"): string =>
  score.pinball === null ? "–" : f.number(score.pinball * f.levelFactor(unit), unit === "%" ? 2 : 1);

/** Said below figures that rest on too little. */
export const tooFewNote = `Fewer than ${fewestOutcomes} later tests: counts, for a share can’t be told yet.`;

/** "widened by 12 %", "narrowed by 9 %", "as they come": how ranges are told under the factor in force. */
export const widthInForceWords = (f: Formats, factor: number): string =>
  factor === 1 ? "as they come" : widthFactorWords(factor, (value) => f.percent(value));
