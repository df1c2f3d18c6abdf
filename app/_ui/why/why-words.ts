import { rangeDays } from "@/lib/explain/range.ts";
import type {
  BelievedCourse,
  Explained,
  NextTest,
  ShapeKind,
  TestEffect,
  UnitExplanation,
  Wanted,
} from "@/lib/explain/types.ts";
import type { Crossing } from "@/lib/schema/assessment.ts";
import type { JudgedMeasure } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { countWord, listWords, measureWords } from "@/lib/wording.ts";

/** What the page "Why this date" says, in the viewer's formats. */

const levelName = { "leak-down": "leakage", "compression-dry": "compression" } as const satisfies Record<
  JudgedMeasure,
  string
>;

const repairName = { topEnd: "top-end repair", bottomEnd: "bottom-end repair" } as const;

export const shapeWords = {
  even: "wear that grows evenly",
  faster: "wear that grows faster and faster",
  slower: "wear that slows down",
} as const satisfies Record<ShapeKind, string>;

const daysInMonth = 365.25 / 12;
/** Below so many days a span is told in days. */
const fewDays = 70;

/** "12 days", "14 months" of a span without its sign. */
export function spanWords(days: number, f: Formats): string {
  const span = Math.abs(days);
  return span < fewDays ? f.days(span) : `${f.number(Math.round(span / daysInMonth))} months`;
}

/** A level as measured: tenths of a per cent, whole kPa. */
export const levelWords = (e: Pick<Explained, "told">, value: number, f: Formats): string =>
  f.level(value, e.told.unit, e.told.unit === "%" ? 1 : 0);

/** A range's width, or that it has no late end; what is met already has none. */
export function widthWords(crossing: Crossing, f: Formats): string {
  if (crossing.status === "crossed") return "none: met now";
  if (crossing.date.p10 === null) return "none within the horizon";
  const width = rangeDays(crossing);
  return width === null ? "no late end" : spanWords(width, f);
}

/** One date of a crossing: early, likely or late. */
export function dateWords({ date, status }: Crossing, of: "p10" | "p50" | "p90", f: Formats): string {
  const day = date[of];
  if (day !== null) return status === "crossed" ? "met now" : f.forecast(day, date.p10, date.p90);
  return status === "too-few-tests" ? "too few tests" : "beyond the horizon";
}

/** The page's finding: which place decides, and when it meets its limit. */
export function whyFinding(e: Explained, f: Formats): string {
  const { crossing, level, limit } = e.told;
  const place = e.cylinders === 1 ? "The cylinder" : `Cylinder ${e.cylinder}`;
  const where = e.decides ? `${place} decides` : place;
  const now = `its ${levelName[e.measure]}, ${levelWords(e, level, f)} now${wideLevelWords(e, f)},`;
  const its = `its limit of ${levelWords(e, limit, f)}`;
  if (crossing.status === "crossed") return `${where}: ${now} is at or past ${its}.`;
  const { p10, p50, p90 } = crossing.date;
  if (p50 !== null) return `${where}: ${now} likely meets ${its} ${f.forecastIn(p50, p10, p90)}${ownRangeWords(e, f)}.`;
  if (p10 !== null)
    return `${where}: ${now} hardly meets ${its} before ${dateWords(crossing, "p10", f)}; likely beyond the horizon.`;
  if (!e.decides) return `${place}: ${now} is not foreseen to meet ${its} within the horizon.`;
  return `No date: ${place.toLowerCase()} is the nearest to one, but ${now} is not foreseen to meet ${its} within the horizon.`;
}

/** From this share of the way to the limit on a level's range is told beside it in the finding. */
const wideShare = 0.3;

/** The range of a level that is in doubt, as where a fault may have begun at the last test: no one figure says it. */
function wideLevelWords({ told, levelRange }: Explained, f: Formats): string {
  if (levelRange === null || told.crossing.status === "crossed") return "";
  const { better, worse } = levelRange;
  if (Math.abs(worse - better) < wideShare * Math.abs(told.limit - told.level)) return "";
  return ` (perhaps ${levelWords({ told }, Math.min(better, worse), f)} to ${levelWords({ told }, Math.max(better, worse), f)})`;
}

/** The range of the level now as a clause for its derivation; empty: nothing is known of it. */
export const levelRangeWords = ({ told, levelRange }: Pick<Explained, "told" | "levelRange">, f: Formats): string =>
  levelRange === null
    ? ""
    : `, and with 8 chances in 10 between ${levelWords({ told }, Math.min(levelRange.better, levelRange.worse), f)} and ${levelWords({ told }, Math.max(levelRange.better, levelRange.worse), f)}`;

/** The cylinder's own range, where it differs from the unit's window, which is told below it. */
function ownRangeWords({ told, window }: Explained, f: Formats): string {
  const { p10, p50, p90 } = told.crossing.date;
  if (p50 === window.date.p50 && p10 === window.date.p10 && p90 === window.date.p90) return "";
  const early = `early ${dateWords(told.crossing, "p10", f)}`;
  return p90 === null ? ` (${early}, no late end)` : ` (${early}, late ${dateWords(told.crossing, "p90", f)})`;
}

export type Unexplained = Exclude<UnitExplanation, Explained>;

/** Why a unit has no date that could be explained, and what would give it one. */
export function unexplainedWords(unit: string, of: Unexplained): { readonly title: string; readonly says: string } {
  if (of.state === "never-tested") {
    return {
      title: `${unit} has no date: it has had no test yet.`,
      says: "A first test gives the level of each cylinder; three usable tests give a rate, a date and its range.",
    };
  }
  if (of.state === "no-limit") {
    const measures = listWords(of.measures.map((measure) => measureWords[measure]));
    return {
      title: `${unit} has no date: its engine model has no limit for ${measures}.`,
      says: `A date is when a limit is met, and what was tested has none, so more such tests give no date either. Give the engine model a limit for ${measures}, or test what it has a limit for.`,
    };
  }
  return {
    title: `${unit} has no date yet: too few usable tests.`,
    says: "Three usable tests since the last repair give a rate, a date and its range. Until then there is nothing to explain; the next test helps most.",
  };
}

/** That what was asked for has no date to explain, and what is explained instead; null: it is what was asked for. */
export function notAskedWords(e: Explained, { side, cylinder }: Wanted): string | null {
  const missed = [
    ...(cylinder !== undefined && cylinder !== e.cylinder ? [`cylinder ${cylinder}`] : []),
    ...(side !== undefined && side !== e.side ? [`the ${repairName[side]}`] : []),
  ];
  if (missed.length === 0) return null;
  return `Of ${listWords(missed)} no date can be explained: too few usable tests, or no limit for what was tested. What decides the unit’s date is shown.`;
}

/** How the unit's window comes from the deciding cylinder. */
export function windowWords(e: Explained, f: Formats): string {
  const { date, status } = e.window;
  const name = repairName[e.side];
  if (status === "crossed") return `The ${name} is due now: a cylinder is past its limit.`;
  if (date.p10 === null) return `No ${name} is foreseen within the horizon.`;
  const month = (day: string) => f.forecast(day, date.p10, date.p90);
  const likely = date.p50 === null ? "the likely date beyond the horizon" : `likely ${month(date.p50)}`;
  const late = date.p90 === null ? "no late end" : `late ${month(date.p90)}`;
  return `The ${name}, by all cylinders and what may be wrong with them: early ${month(date.p10)}, ${likely}, ${late}.`;
}

/** How far a fault is believed in the deciding cylinder: from a half on the rate that is told is mostly the fault's. */
const faultShare = ({ course }: Pick<Explained, "course">): number =>
  course.faults.reduce((sum, { share }) => sum + share, 0);

export const isFaultsRate = (e: Pick<Explained, "course">): boolean => faultShare(e) >= 0.5;

/**
 * "Six tenths of what is said of its rate are this engine's own tests, the rest its 4 sister engines". Where the rate is a
 * fault's, which own tests alone tell of, that is said of the wear beside it.
 */
export function shareWords(e: Pick<Explained, "ownShare" | "sisters" | "course">, f: Formats): string {
  const { ownShare, sisters } = e;
  const tenths = Math.round(10 * ownShare);
  const rest =
    sisters.engines === 0
      ? "starting values for engines at large, for no sister engine was tested"
      : sisters.engines === 1
        ? "its one sister engine"
        : `its ${f.number(sisters.engines)} sister engines`;
  const [before, what] = isFaultsRate(e)
    ? [
        `Its rate is most likely that of a fault (${f.probability(faultShare(e))}), as this engine’s own tests show it. `,
        "the wear beside it",
      ]
    : ["", "its rate"];
  if (tenths === 0)
    return `${before}Hardly any of what is said of ${what} comes from this engine’s own tests: it is ${rest}.`;
  if (tenths === 10) return `${before}Nearly all that is said of ${what} comes from this engine’s own tests.`;
  const [verb, noun] = tenths === 1 ? ["is", "tenth"] : ["are", "tenths"];
  const count = countWord(tenths);
  return `${before}${count.charAt(0).toUpperCase()}${count.slice(1)} ${noun} of what is said of ${what} ${verb} this engine’s own tests, the rest ${rest}.`;
}

/** What the ways that wear goes on are made of: powers of use, as the sisters show them and as this cylinder's tests do. */
export function powersWords({ course, sisters }: Pick<Explained, "course" | "sisters">, f: Formats): string {
  const { powers } = course;
  const figures = (of: "share" | "amongSisters") => listWords(powers.map((one) => f.probability(one[of])));
  const names = listWords(powers.map(({ power }) => f.number(power, Number.isInteger(power) ? 0 : 1)));
  const from = sisters.engines === 0 ? "starting values for engines at large" : "the model’s engines";
  const fault = faultShare({ course });
  const rest = fault === 0 ? "" : `, and ${f.probability(fault)} a fault`;
  if (powers.length === 1)
    return `Wear goes by the power ${names} of use: ${from} leave no other likely. After this cylinder’s tests that is ${figures("share")} likely${rest}.`;
  return `Wear is tried by the powers ${names} of use (1: even; above it: faster and faster). By ${from} these are ${figures("amongSisters")} likely; after this cylinder’s tests ${figures("share")}${rest}.`;
}

/** What a person said of a fault, and why. */
export function rulingWords({ test, isFault, by, reason }: BelievedCourse["rulings"][number], f: Formats): string {
  const what = isFault ? "a fault had begun by the test of" : "no fault had begun by the test of";
  return `${by} says that ${what} ${f.date(test.date)}: ${reason}.`;
}

/** What is open about an improvement with no repair on file, and how the date holds both pasts. */
export function openStepWords(e: Pick<Explained, "openStep" | "told" | "cylinder" | "cylinders">, f: Formats): string {
  const { openStep } = e;
  if (openStep === null) return "";
  const { date, from, to, believed } = openStep;
  const who = e.cylinders === 1 ? "the cylinder" : `cylinder ${e.cylinder}`;
  return `A question is open: ${who} stood at about ${levelWords(e, from, f)}, and at about ${levelWords(e, to, f)} from the test of ${f.date(date)} on, with no repair on file. The date rests by ${f.probability(believed)} on a repair that nobody recorded, and by ${f.probability(1 - believed)} on the course before it, which holds if the tests since mislead.`;
}

/** Between which tests a fault began. */
export function faultWords({ after, by }: BelievedCourse["faults"][number], f: Formats): string {
  return after === null
    ? `a fault that was there at the test of ${f.date(by)}`
    : `a fault that began between the tests of ${f.date(after)} and ${f.date(by)}`;
}

/** "3 months sooner": where the date would be without a test. */
export function moveWords({ laterDays, without }: TestEffect, of: "p50" | "p10", f: Formats): string {
  if (laterDays === null) return dateWords(without, of, f);
  if (laterDays === 0) return "the same";
  return `${spanWords(laterDays, f)} ${laterDays > 0 ? "later" : "sooner"}`;
}

/** The test without which the date would move most; null: none moves it. One that leaves no date moves it most of all. */
export function strongest(tests: readonly TestEffect[]): TestEffect | null {
  const reach = ({ laterDays }: TestEffect) => (laterDays === null ? Number.POSITIVE_INFINITY : Math.abs(laterDays));
  const first = tests.toSorted((a, b) => reach(b) - reach(a))[0];
  return first === undefined || reach(first) === 0 ? null : first;
}

/** The sentence of the strongest test. */
export function strongestWords(e: Explained, f: Formats): string {
  if (e.moved === null || e.tests.length === 0) return "";
  const date = movedName(e.moved);
  const test = strongest(e.tests);
  if (test === null) return `No single test moves the ${date}: without any one of them it would be the same.`;
  const which = `The ${measureWords[e.measure]} test of ${f.date(test.date)} moves the ${date} most: without it`;
  if (test.laterDays !== null) return `${which} the date would be ${moveWords(test, e.moved, f)}.`;
  return test.without.status === "too-few-tests"
    ? `${which} there would be too few tests for a date.`
    : `${which} it would lie beyond the horizon.`;
}

/**
 * What a test next month would do to the range: "would narrow the range from 14 to 6 months". Both widths are those of that
 * day, when the range is another than today's: so the day is named.
 */
export function nextTestWords({ date, without, asForeseen }: NextTest, measure: JudgedMeasure, f: Formats): string {
  const a = `A ${measureWords[measure]} test next month that reads as foreseen`;
  const [before, after] = [rangeDays(without), rangeDays(asForeseen.crossing)];
  if (asForeseen.crossing.status === "crossed") return `${a} would bear out that the limit is met.`;
  if (without.status === "crossed") return `By then the limit would be met; ${lower(a)} would put it ahead again.`;
  if (asForeseen.crossing.date.p10 === null) {
    return without.date.p10 === null
      ? `${a} would leave the whole range beyond the horizon.`
      : `${a} would put the whole range beyond the horizon.`;
  }
  if (without.date.p10 === null) {
    return `${a} would bring the early date within the horizon, to ${dateWords(asForeseen.crossing, "p10", f)}.`;
  }
  if (before === null && after === null) return `${a} would leave the range without a late end.`;
  if (before === null) return `${a} would give the range a late end: it would span ${spanWords(after ?? 0, f)}.`;
  if (after === null) return `${a} would put the late end beyond the horizon.`;
  const [from, to] = [spanWords(before, f), spanWords(after, f)];
  if (from === to) return `${a} would leave the range as wide as it is, ${from}.`;
  // "from 14 to 6 months": the word is said once where both have it.
  const said = (["months", "days"] as const).find((word) => from.endsWith(` ${word}`) && to.endsWith(` ${word}`));
  const first = said === undefined ? from : from.slice(0, -said.length - 1);
  return `${a} would ${after < before ? "narrow" : "widen"} the range from ${first} to ${to}, as they would stand on ${f.date(date)}.`;
}

const lower = (sentence: string) => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** What "where the date would be without a test" is held against: where it is now. */
export const movedNote = ({ told, moved }: Pick<Explained, "told" | "moved">, f: Formats): string =>
  told.crossing.status === "crossed"
    ? "where the limit would be met without that one test; now it is met"
    : `where the ${movedName(moved)} would be without that one test; now ${dateWords(told.crossing, moved ?? "p50", f)}`;

/** Which date tests are told to move. */
export const movedName = (moved: Explained["moved"]): string => (moved === "p10" ? "early date" : "likely date");

/** The range as it is now. */
export function rangeNowWords({ told }: Pick<Explained, "told">, f: Formats): string {
  const { status, date } = told.crossing;
  if (status === "crossed") return "The limit is met now, so there is no range.";
  if (date.p10 === null) return "Now no range lies within the horizon.";
  if (date.p90 === null) return "Now the range has no late end.";
  return `Now the range is ${widthWords(told.crossing, f)}.`;
}

/** What stands between the readings and the level: the last reading, where there is one. */
export const latestWords = (e: Pick<Explained, "told">, f: Formats): string =>
  e.told.latest === null ? "" : `; the last reading was ${levelWords(e, e.told.latest, f)}`;

/** A difference of levels, as a standard deviation is one: "1.5 points", "28 kPa". */
export const spreadWords = (e: Pick<Explained, "told">, value: number, f: Formats): string =>
  e.told.unit === "%" ? `${f.number(value, 1)}\u00a0points` : levelWords(e, value, f);

/** How the dates of the deciding place follow from its way to the limit. */
export function datesWords({ told }: Pick<Explained, "told">, f: Formats): string {
  const { crossing } = told;
  if (crossing.status === "crossed") {
    return "The level now is at or past the limit, so the date is that of this forecast and has no range: no use has to be foreseen. The next test shows whether the level holds.";
  }
  return `The way to the limit, at the use foreseen. Early is ${dateWords(crossing, "p10", f)}, late ${dateWords(crossing, "p90", f)}: 1 and 9 of 10 such cylinders would have met the limit by then. From early to late: ${widthWords(crossing, f)}. What is in doubt of level, rate, way of going on and use is in the range.`;
}

/** Use that a straight line at the present rate would take from the level to the limit; null: it does not get there. */
export function straightUse({ told }: Explained): number | null {
  if (told.rate === null || told.rate.perThousand === 0) return null;
  const use = (1000 * (told.limit - told.level)) / told.rate.perThousand;
  return use > 0 ? use : null;
}
