import { daysBetween } from "../calendar.ts";
import type { AssessmentBasis, BasisCheck, BasisRepair } from "../schema/changes.ts";
import type { IsoDate } from "../schema/facts.ts";
import { judgedMeasures } from "../schema/words.ts";
import { checkWords, cylinderWords, dateWords, dayWords, numberWords, scopeWords } from "../wording.ts";
import { limitCauses, settingCauses } from "./limit-causes.ts";
import { grouped, listDifference, onDates } from "./lists.ts";
import { lastTestCause, testCauses } from "./test-causes.ts";

/** An assessment, as far as it explains the next one. */
export interface Explained {
  readonly asOf: IsoDate;
  readonly lastTestDate: IsoDate | null;
  /** Why it was made, as the history keeps it. */
  readonly because: string;
  /** null: nothing of it was kept. */
  readonly basis: AssessmentBasis | null;
}

export interface ChangeCause {
  readonly kind: "engine" | "status" | "repair" | "limit" | "test" | "check" | "use" | "pool" | "program" | "time";
  /** A part of a sentence: "new leak-down test on 24 Aug 2026". */
  readonly words: string;
}

/** Use that rose or fell by less is what it was. Engineering judgement. */
const materialUseShare = 0.1;
/** Days that passed are told beside other causes only from here on: every assessment is made on a later day. */
const materialDays = 30;

/**
 * Why an assessment may differ from an earlier one of the unit: everything of what it was made from that is not as it
 * was, the likeliest first. What was not kept with the earlier one is not compared. Where there are several, their
 * shares are not known: they came together. Never empty.
 */
export function changeCauses(was: Explained, now: Explained): readonly ChangeCause[] {
  const found = was.basis === null || now.basis === null ? [] : basisCauses(was.basis, now.basis);
  const tests =
    was.basis?.tests === undefined || now.basis?.tests === undefined
      ? lastTestCause(was.lastTestDate, now.lastTestDate)
      : testCauses(was.basis.tests, now.basis.tests);
  const causes = [...found, ...tests.map((words): ChangeCause => ({ kind: "test", words }))];
  const days = daysBetween(was.asOf, now.asOf);
  const time: ChangeCause = {
    kind: "time",
    words: days < 0 ? "told for an earlier date" : `${dayWords(days)} went by`,
  };
  if (causes.length === 0 && days !== 0) causes.push(time);
  else if (days >= materialDays) causes.push(time);
  // The same facts, told otherwise: by another version of the program, or by one that did not keep all it went by.
  if (causes.length === 0) causes.push({ kind: "program", words: "reckoned anew from the same facts" });
  return causes.toSorted((a, b) => likelihood.indexOf(a.kind) - likelihood.indexOf(b.kind));
}

const likelihood: readonly ChangeCause["kind"][] = [
  "engine",
  "status",
  "repair",
  "limit",
  "test",
  "check",
  "use",
  "pool",
  "program",
  "time",
];

function basisCauses(was: AssessmentBasis, now: AssessmentBasis): ChangeCause[] {
  const compare = <T>(
    kind: ChangeCause["kind"],
    before: T | undefined,
    after: T | undefined,
    words: (before: T, after: T) => readonly string[],
  ): ChangeCause[] =>
    before === undefined || after === undefined ? [] : words(before, after).map((each) => ({ kind, words: each }));
  return [
    ...compare("engine", was.engineSerial, now.engineSerial, engineCauses),
    ...compare("status", was.status, now.status, (before, after) =>
      before === after ? [] : [statusCauseWords[after]],
    ),
    ...compare("repair", was.repairs, now.repairs, repairCauses),
    ...compare("limit", was.limits, now.limits, limitCauses),
    ...compare("limit", was.settings, now.settings, settingCauses),
    ...compare("check", was.checks, now.checks, checkCauses),
    ...compare("use", was, now, useCauses),
    ...compare("use", was, now, seasonCauses),
    ...compare("use", was, now, meterCauses),
    ...compare("pool", was, now, poolCauses),
  ];
}

/** Other widths make other versions of the pools, and come by themselves: then it is not what sister engines show. */
function poolCauses(was: AssessmentBasis, now: AssessmentBasis): readonly string[] {
  const moved = judgedMeasures
    .map((measure) => (now.widths?.[measure] ?? 1) - (was.widths?.[measure] ?? 1))
    .filter((by) => by !== 0);
  if (moved.length > 0) {
    const how = moved.every((by) => by > 0) ? "widened" : moved.every((by) => by < 0) ? "narrowed" : "set";
    return [`ranges ${how} by how past forecasts of its model turned out`];
  }
  return was.pools.join() === now.pools.join() ? [] : ["what its sister engines show, reckoned anew"];
}

export const statusCauseWords = {
  "in-service": "in service again",
  stopped: "taken out of service",
  retired: "retired",
} as const;

function engineCauses(was: string | null, now: string | null): readonly string[] {
  if (was === now) return [];
  if (now === null) return ["engine without a known number in place of the earlier one"];
  return [was === null ? `engine ${now} named` : `engine ${now} in place of ${was}`];
}

function repairCauses(was: readonly BasisRepair[], now: readonly BasisRepair[]): readonly string[] {
  const { added, gone } = listDifference(was, now, (repair) => JSON.stringify(repair));
  const words = ({ scope, cylinders, date }: BasisRepair) =>
    `${scopeWords[scope]}${scope === "engine-swap" ? "" : `, ${cylinderWords(cylinders)},`} on ${dateWords(date)}`;
  return [...added.map(words), ...gone.map((repair) => `${words(repair)} taken back`)];
}

function checkCauses(was: readonly BasisCheck[], now: readonly BasisCheck[]): readonly string[] {
  const { added, gone } = listDifference(was, now, (check) => JSON.stringify(check));
  const of = (checks: readonly BasisCheck[], after: string) =>
    grouped(checks, ({ check }) => check).map(
      ([check, group]) => `${checkWords[check]} ${onDates(group.map(({ date }) => date))}${after}`,
    );
  return [...of(added, ""), ...of(gone, " taken back")];
}

type Use = Pick<AssessmentBasis, "perDay" | "meterUnit">;

function useCauses(was: Use, now: Use): readonly string[] {
  if (was.meterUnit !== now.meterUnit) return [`meter in ${now.meterUnit}, no longer in ${was.meterUnit}`];
  if (Math.abs(now.perDay - was.perDay) <= materialUseShare * was.perDay) return [];
  const verb = now.perDay > was.perDay ? "rose" : "fell";
  const digits = [0, 1, 2, 3].find((more) => weekly(was.perDay, more) !== weekly(now.perDay, more)) ?? 3;
  return [`use ${verb} from ${weekly(was.perDay, digits)} to ${weekly(now.perDay, digits)} ${now.meterUnit} a week`];
}

/** A season moves dates from quarter to quarter, however alike the mean use of the year is. */
function seasonCauses(was: AssessmentBasis, now: AssessmentBasis): readonly string[] {
  if (was.season === undefined || now.season === undefined) return [];
  if (was.perDay === 0 || now.perDay === 0 || was.meterUnit !== now.meterUnit) return [];
  if (was.season === null) return now.season === null ? [] : ["use told by season now, as such units show"];
  if (now.season === null) return ["use no longer told by season: such units show none"];
  const before = was.season;
  const isMoved = now.season.some((share, q) => Math.abs(share - (before[q] ?? 1)) > materialUseShare);
  return isMoved ? ["season of use told anew, as such units show"] : [];
}

/** A meter that was read anew moves the dates, however little it says of the use; tests and repairs name their own. */
function meterCauses(was: AssessmentBasis, now: AssessmentBasis): readonly string[] {
  if (was.lastRead === undefined || now.lastRead === undefined) return [];
  const [before, after] = [was.lastRead, now.lastRead];
  if (before?.date === after?.date && before?.meter === after?.meter) return [];
  const isNamed = (of: AssessmentBasis, on: IsoDate) =>
    [...(of.tests ?? []), ...(of.repairs ?? [])].some(({ date }) => date === on);
  if (after !== null && (before === null || after.date >= before.date)) {
    return isNamed(now, after.date) ? [] : [`meter read on ${dateWords(after.date)}`];
  }
  return before === null || isNamed(was, before.date) ? [] : ["a reading of the meter taken back"];
}

/** Use a week as one would say it: 610, 14, 0.4; with `more` decimals where two would read alike. */
function weekly(perDay: number, more: number): string {
  const week = 7 * perDay;
  if (week >= 100 && more === 0) return numberWords(Math.round(week / 10) * 10);
  return numberWords(week, Math.max(0, (week > 0 && week < 10 ? 1 : 0) + more - (week >= 100 ? 1 : 0)));
}
