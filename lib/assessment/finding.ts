import { daysBetween } from "../calendar.ts";
import { causeLabel } from "../cause/words.ts";
import { noTest } from "../condition/test-due.ts";
import { fewestTests } from "../projection/project.ts";
import type { CauseShare, Crossing, CylinderAssessment, UnitAssessment } from "../schema/assessment.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { UnitReport } from "../schema/report.ts";
import { type Cause, repairClassOf } from "../schema/words.ts";
import {
  cylinderWords,
  dateWords,
  kpaWords,
  listWords,
  monthWords,
  numberWords,
  probabilityWords,
  sentenceWords,
} from "../wording.ts";
import { eitherRepairSentence } from "./either-repair.ts";
import { inDoubtSentences } from "./in-doubt.ts";
import { laggingOf } from "./lagging.ts";
import { soldBeforeWords } from "./together.ts";
import { decidingMeasure, type WeakestPlace, weakestPlace } from "./weakest.ts";
import { wholeUnitSentence } from "./whole-unit.ts";

/** A date of a forecast: the month; the day only where the range is so narrow that it means something. */
const narrowDays = 70;

const lowered = (label: string): string => label.charAt(0).toLowerCase() + label.slice(1);
const causeName = (cause: Cause): string => lowered(causeLabel(cause));

/** A last reading this far from the level is told beside it: points of leakage, or a share of the compression. */
const farPoints = 2;
const farShare = 0.03;

function someWords(values: readonly number[]): string {
  const shown = [...new Set(values.toSorted((a, b) => a - b).map((value) => numberWords(value)))];
  return shown.length > 3 ? `${shown[0]} to ${shown.at(-1)}` : listWords(shown);
}

/**
 * Why a place is past the limit though a level of it is not: the spread of the cylinders' compressions. Its figures would
 * otherwise be those of a sound cylinder. null: each level says it by itself.
 */
function spreadWords({ cylinders }: WeakestPlace): string | null {
  const deciding = cylinders.flatMap((c) => {
    const measure = decidingMeasure(c);
    return measure === null ? [] : [{ cylinder: c.cylinder, measure }];
  });
  const isSpread = deciding.some(
    ({ measure: { band, unit, level, limit } }) =>
      band === "past-limit" && unit === "kPa" && level !== null && limit !== null && level > limit,
  );
  if (!isSpread) return null;
  const told = deciding.map(({ cylinder, measure: { unit, reason } }) => {
    // Reasons of leakage name what they measure, those of compression do not.
    const words = unit === "%" ? reason : `compression ${reason}`;
    return deciding.length === 1 ? words : `cylinder ${cylinder}: ${words}`;
  });
  return told.join("; ");
}

/**
 * The levels of a place against their limit. A level is the estimate of the true value and may lie far from the last
 * reading (a step not yet borne out, a doubtful test): then both are told, so that nobody misses what was measured.
 */
function levelWords(place: WeakestPlace, tellLast = true): string {
  const { unit, limit } = place.measure;
  const known = place.cylinders.flatMap((c) => {
    const m = c.measures.find((m) => m.measure === place.measure.measure);
    return m?.level == null || m.latest === null ? [] : [{ level: m.level, latest: m.latest }];
  });
  const isFar = known.some(
    ({ level, latest }) => Math.abs(latest - level) > (unit === "%" ? farPoints : farShare * level),
  );
  const last =
    tellLast && isFar ? ` (last read ${someWords(known.map((k) => k.latest))}${unit === "%" ? "" : " kPa"})` : "";
  const spread = spreadWords(place);
  if (spread !== null) return `${spread}${last}`;
  const levels = someWords(known.map((k) => k.level));
  return unit === "%"
    ? `leakage ${levels} %${last}${limit === null ? "" : `, limit ${numberWords(limit)}`}`
    : `compression ${levels} kPa${last}${limit === null ? "" : `, minimum ${kpaWords(limit)}`}`;
}

/** "early, likely, late" of a window as a clause: "likely between Mar 2027 and Sep 2027, most likely Jun 2027". */
export function windowWords(crossing: Pick<Crossing, "date">, asOf: IsoDate): string {
  const { p10, p50, p90 } = crossing.date;
  if (p10 === null) return "not foreseen";
  const say = p90 !== null && daysBetween(p10, p90) < narrowDays ? dateWords : monthWords;
  const from = p10 === asOf ? "now" : say(p10);
  if (p50 === asOf) return `perhaps due now; ${p90 === null ? "no late end yet" : `hardly after ${say(p90)}`}`;
  if (p50 === null && p10 === asOf) return "may be due now, but more likely lies beyond the horizon";
  if (p50 === null) return `hardly before ${from}; the likely date lies beyond the horizon`;
  if (p90 === null) {
    return `likely in ${monthWords(p50)}, ${p10 === asOf ? "perhaps now" : `hardly before ${from}`}; no late end yet`;
  }
  // A range of one day is narrow, and so told by day.
  if (p10 === p90) return `likely on ${say(p50)}`;
  return `likely between ${from} and ${say(p90)}, most likely ${say(p50)}`;
}

/**
 * Those with a likely date first: an early date alone, however soon, is of a repair that is likely later. Of two early dates
 * alike the likelier within a year, as where it is explained (lib/explain/deciding.ts).
 */
const order = ({ date: { p10, p50 }, probabilityWithinYear }: Crossing): string =>
  p50 ?? `~${p10 ?? "~"}~${(1 - (probabilityWithinYear ?? 0)).toFixed(4)}`;

/**
 * The finding of a unit in one to five sentences, plain words first: when, where and probably why, how fast, and whether
 * compression does not show it yet.
 * `pace`: how fast the weakest place worsens, as a sentence; null: nothing to tell.
 */
export function findingOf(assessment: UnitAssessment, asOf: IsoDate, pace: string | null = null): string {
  if (assessment.lastTestDate === null) {
    const none = assessment.reason === noTest.neverSinceSwap ? noTest.neverSinceSwap : "no test yet";
    return `${sentenceWords(none)}. A first test gives a baseline; ${fewestTests} tests give a range.`;
  }
  const place = weakestPlace(assessment);
  const { topEnd, bottomEnd } = assessment.repairs;
  if (place === null) {
    return assessment.reason === noTest.noneUsable
      ? "No usable test yet. A test now sets the baseline."
      : "No usable test since the last repair. A test now sets the new baseline.";
  }
  const where =
    place.cylinders.length === assessment.cylinders.length && place.cylinders.length > 1
      ? "all cylinders"
      : cylinderWords(place.cylinders.map((c) => c.cylinder));
  const why = place.cause === null ? "" : ` ${causeSentence(place)}`;
  const { inDoubt } = assessment;
  const asked = assessment.questions.length > inDoubt.length ? " A question is open: see below." : "";
  const doubted = inDoubt.length === 0 ? "" : `${inDoubtSentences(inDoubt)} `;
  const urgent = assessment.band !== "sound";
  const lags = laggingOf(assessment);
  const speed = `${urgent && pace !== null ? ` ${pace}` : ""}${lags === null ? "" : ` ${lags.words}`}`;
  if (assessment.band === "past-limit") {
    return `${isSurelyPast(place) ? "Past its limit" : "Probably past its limit by now"}: ${pastLimitWords(place, where)}.${doubted === "" ? "" : ` ${doubted.trim()}`}${why}${speed}${asked}`;
  }
  const sold = soldBeforeWords(assessment);
  const windows = [
    { name: windowNames.topEnd, crossing: topEnd, isAfterSale: assessment.soldBefore?.topEnd ?? false },
    { name: windowNames.bottomEnd, crossing: bottomEnd, isAfterSale: assessment.soldBefore?.bottomEnd ?? false },
  ]
    .filter((w) => w.crossing.date.p10 !== null && !w.isAfterSale)
    .toSorted((a, b) => (order(a.crossing) < order(b.crossing) ? -1 : 1));
  const first = windows[0];
  const either = (told: Crossing | null) =>
    sold === null ? eitherRepairSentence(assessment, told, (of) => windowWords(of, asOf)) : null;
  if (first === undefined) {
    const few = [topEnd, bottomEnd].every((c) => c.status === "too-few-tests");
    const forecast =
      sold ??
      (few
        ? `Too few usable tests for a range; ${fewestTests} of one life give one.`
        : either(null) === null
          ? "No repair foreseen within the horizon."
          : `No one class of repair foreseen within the horizon. ${either(null)}`);
    const standing = urgent ? sentenceWords(where) : doubted === "" ? "Nothing stands out" : "Nothing else stands out";
    return `${doubted}${standing}: ${levelWords(place, urgent || doubted === "")}. ${forecast}${speed}${asked}`;
  }
  const whole = wholeUnitSentence(assessment);
  const after = [either(first.crossing), sold, whole]
    .flatMap((words) => (words === null ? [] : [`${words} `]))
    .join("");
  const when = `${first.name} ${windowWords(first.crossing, asOf)}. ${after}${doubted}`;
  const which = urgent ? causeOfWindow(place, first.name) : null;
  return which === null
    ? `${when}${sentenceWords(where)}: ${levelWords(place)}.${urgent ? why : ""}${speed}${asked}`
    : `${when}${sentenceWords(where)}, ${which}: ${levelWords(place)}.${speed}${asked}`;
}

/**
 * The leading cause of a place in short, where it calls for the repair that the window is of, so that nothing more need
 * be said of the class: "probably the exhaust valve or seat (82 %)". null: it has to be told at length.
 */
function causeOfWindow({ lead }: WeakestPlace, repair: string): string | null {
  const [leading] = lead.causes;
  if (leading === undefined || leading.cause === "test-set-up") return null;
  const isTopEnd = repairClassOf[leading.cause] === "top-end";
  const [own, other] = isTopEnd ? [lead.topEnd, lead.bottomEnd] : [lead.bottomEnd, lead.topEnd];
  if (other > own || repair !== (isTopEnd ? windowNames.topEnd : windowNames.bottomEnd)) return null;
  return lowered(namedCause(leading));
}

const pastOf = ({ cylinders }: WeakestPlace): readonly CylinderAssessment[] =>
  cylinders.filter(({ band }) => band === "past-limit");

/** Some cylinder was past its limit when it was last tested, or breaks the rule on spread. */
const isSurelyPast = (place: WeakestPlace): boolean =>
  pastOf(place).some((c) =>
    c.measures.some(({ band, crossedAfter }) => band === "past-limit" && crossedAfter === undefined),
  );

/** "when last tested, on 3 May 2026, 17 %", where what is told is only what the level must have come to since. */
function lastTestedWords(place: WeakestPlace): string {
  if (isSurelyPast(place)) return "";
  const since = pastOf(place).flatMap(({ measures }) =>
    measures.flatMap(({ measure, crossedAfter }) =>
      measure === place.measure.measure && crossedAfter != null ? [crossedAfter] : [],
    ),
  );
  const [{ date } = { date: "" }] = since.toSorted((a, b) => (a.date < b.date ? 1 : -1));
  if (date === "") return "";
  const levels = someWords(since.map(({ level }) => level));
  return `; last measured ${dateWords(date)}, then at ${levels} ${place.measure.unit}`;
}

/** Which cylinders are past the limit and how far; told apart from a neighbour that shares the fault but is not there yet. */
function pastLimitWords(place: WeakestPlace, where: string): string {
  const [past, beside] = [true, false].map((isPast) =>
    place.cylinders.filter(({ band }) => (band === "past-limit") === isPast),
  ) as [CylinderAssessment[], CylinderAssessment[]];
  const besideLevels = beside.flatMap((c) => c.measures.find((m) => m.measure === place.measure.measure)?.level ?? []);
  const then = lastTestedWords(place);
  if (past.length === 0 || besideLevels.length === 0) return `${where}, ${levelWords(place)}${then}`;
  const pastWhere = cylinderWords(past.map((c) => c.cylinder));
  const besideWhere = cylinderWords(beside.map((c) => c.cylinder));
  const unit = place.measure.unit;
  return `${pastWhere}, ${levelWords({ ...place, cylinders: past })}; ${besideWhere} ${beside.length === 1 ? "goes" : "go"} with ${past.length === 1 ? "it" : "them"} at ${someWords(besideLevels)} ${unit}${then}`;
}

const windowNames = { topEnd: "Top-end repair", bottomEnd: "Bottom-end repair" } as const;

const namedCause = ({ cause, probability }: CauseShare): string =>
  `${probability >= 0.7 ? "Probably" : "Perhaps"} the ${causeName(cause)} (${probabilityWords(probability)})`;

function causeSentence(place: WeakestPlace): string {
  const lead = place.lead.causes[0];
  if (lead === undefined) return "";
  if (lead.cause === "test-set-up") return "Probably the way the test was made: test again before anything is booked.";
  const named = namedCause(lead);
  const isTopEnd = repairClassOf[lead.cause] === "top-end";
  const cylinder = place.lead;
  // Several lesser causes of the other class may outweigh the one that leads.
  const [own, other] = isTopEnd ? [cylinder.topEnd, cylinder.bottomEnd] : [cylinder.bottomEnd, cylinder.topEnd];
  if (other > own) {
    return `${named}; all causes together rather call for a ${isTopEnd ? "bottom-end" : "top-end"} repair (${probabilityWords(other)}).`;
  }
  return `${named}, a ${isTopEnd ? "top-end" : "bottom-end"} repair.`;
}

/** The weakest place in two short lines, for a row of the Fleet table. */
export function placeOf(assessment: UnitAssessment): UnitReport["place"] {
  if (assessment.lastTestDate === null) {
    const title = assessment.reason === noTest.neverSinceSwap ? "This engine never tested" : "No test yet";
    return { title, detail: "book a baseline test" };
  }
  const place = weakestPlace(assessment);
  if (place === null) {
    const detail = assessment.reason === noTest.noneUsable ? "none yet" : "none since the last repair";
    return { title: "No usable test", detail };
  }
  if (assessment.band === "sound") {
    const doubt = assessment.inDoubt[0];
    if (doubt === undefined) return { title: "Nothing stands out", detail: levelWords(place, false) };
    const which = doubt.cylinder === null ? "Last test in doubt" : `Cyl ${doubt.cylinder}, last test in doubt`;
    return { title: which, detail: levelWords(place, false) };
  }
  const all = place.cylinders.length === assessment.cylinders.length && place.cylinders.length > 1;
  const where = all
    ? "All cylinders"
    : cylinderWords(place.cylinders.map((c) => c.cylinder)).replace(/^cylinders?/, "Cyl");
  return {
    title: place.cause === null ? where : `${where}, ${causeName(place.cause)}`,
    detail: levelWords(place, false),
  };
}

/** How sure the forecast is and what it rests on. */
export function howSureOf(
  assessment: UnitAssessment,
  { usedTests, setAside, sisters }: { readonly usedTests: number; readonly setAside: number; readonly sisters: number },
): string {
  if (assessment.lastTestDate === null) {
    return sisters > 0
      ? `No test of this engine yet; ${sisters} sister ${sisters === 1 ? "engine was" : "engines were"} tested, and what they say of the model is no forecast of this one.`
      : "No test of this engine yet, nor of a sister engine.";
  }
  const tests = `${usedTests} ${usedTests === 1 ? "test" : "tests"} of this engine`;
  const others = sisters > 0 ? ` and ${sisters} sister ${sisters === 1 ? "engine" : "engines"}` : "";
  const aside = setAside === 0 ? "" : ` ${setAside} more ${setAside === 1 ? "is" : "are"} kept but not used.`;
  const projected = [assessment.repairs.topEnd, assessment.repairs.bottomEnd].some((c) => c.status === "projected");
  const range = projected ? "A range from early to late is meant to hold the true date 8 times in 10. " : "";
  return `${range}Based on ${tests}${others}.${aside}`;
}
