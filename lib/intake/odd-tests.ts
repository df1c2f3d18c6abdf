import { daysBetween } from "../calendar.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate, TestFact } from "../schema/facts.ts";
import type { Proposal, RowIssue } from "../schema/intake.ts";
import type { MeterUnit } from "../schema/words.ts";
import { numberWords } from "../wording.ts";
import { correctTest, reverseCylinders } from "./correct-cells.ts";
import { testKey } from "./fact-keys.ts";
import { likelyDate } from "./first-day.ts";
import { inOtherUnit } from "./meter-proposals.ts";
import {
  areHeldAsLost,
  areTooLow,
  decimalSlips,
  heldPercent,
  isCopied,
  isReversed,
  likelyPressureUnit,
  lowestShare,
  sameReadings,
} from "./odd-readings.ts";
import { oddWords, proposalWords } from "./odd-words.ts";
import type { ReconciledUnit } from "./reconcile-unit.ts";
import { byPlace, byText, issueAt, placeOf, type RowPlace, withProposals } from "./unit-rows.ts";
import { type WithdrawnBefore, withdrawnWith } from "./withdrawn-rows.ts";
import { words } from "./words.ts";

/** What is known of a unit beside the rows that come in. */
export interface OddnessBefore {
  /** Its tests, with their readings. */
  readonly tests: readonly TestFact[];
  /** Its first day, as a list of units told it; null: never told. */
  readonly inServiceDate: IsoDate | null;
  /** Left out: no test of it was withdrawn. */
  readonly withdrawn?: WithdrawnBefore;
}

/** Nothing: of a unit that is new. */
export const nothingBefore: OddnessBefore = { tests: [], inServiceDate: null };

export interface TestsToLookAt {
  /** Tests that were accepted, each whole. */
  readonly tests: readonly TestFact[];
  readonly before: OddnessBefore;
  readonly model: EngineModel | null;
  readonly meterUnit: MeterUnit | null;
}

/** What `oddTests` needs of a unit whose rows were reconciled; the list of units in these rows goes before an older one. */
export const oddnessOf = (
  { accepted, engineModel, meterUnit }: ReconciledUnit,
  before: OddnessBefore,
  models: ReadonlyMap<string, EngineModel>,
): TestsToLookAt => {
  // Beside what is told in its place, what was withdrawn would look like a repeat.
  const { isWithdrawn } = withdrawnWith(accepted.judgements, before.withdrawn?.judgements ?? []);
  return {
    tests: accepted.tests.filter((test) => !isWithdrawn(test)),
    before: {
      tests: before.tests.filter((test) => !isWithdrawn(test)),
      inServiceDate: accepted.units[0]?.inServiceDate ?? before.inServiceDate,
    },
    model: engineModel === null ? null : (models.get(engineModel) ?? null),
    meterUnit,
  };
};

interface Entry {
  readonly test: TestFact;
  readonly isKnown: boolean;
}

/**
 * Tests that lie further apart than this, days, are of two visits, between which the unit worked and its meter ran. A test
 * that was doubted is made again within a fortnight, and the unit may well stand until then; a meter copied from so short
 * a time ago would do little harm.
 */
const oneVisitDays = 15;

/**
 * Tests that can be what was measured, but look like a slip of whoever wrote them down (trade notes, section 2,
 * clerical): warnings, with a proposal where one is sure. Each is looked at beside the others of its unit, known or new.
 * A test that is known already is not looked at again.
 */
export function oddTests({ tests, before, model, meterUnit }: TestsToLookAt): readonly RowIssue[] {
  const known = new Set(before.tests.map(testKey));
  const fresh = known.size === 0 ? tests : tests.filter((test) => !known.has(testKey(test)));
  if (fresh.length === 0) return [];
  const entries: Entry[] = [
    ...before.tests.map((test) => ({ test, isKnown: true })),
    ...fresh.map((test) => ({ test, isKnown: false })),
  ].sort((a, b) => byText(a.test.date, b.test.date) || Number(b.isKnown) - Number(a.isKnown));
  const issues: RowIssue[] = [];
  const lastOf = new Map<string, Entry[]>();
  let visit: Entry | null = null;
  for (const [i, entry] of entries.entries()) {
    const { test, isKnown } = entry;
    const isNewDate = i === 0 || (entries[i - 1] as Entry).test.date !== test.date;
    if (i > 0 && isNewDate) visit = entries[i - 1] as Entry;
    const same = lastOf.get(test.test) ?? [];
    // Several of one day may be meant; nothing older than the last day of such a test is compared with.
    const last = same.findLast((other) => other.test.date < test.date) ?? null;
    const look = { entry, last, sameDay: same, visit: isNewDate ? visit : null, entries, model, meterUnit };
    if (!isKnown || same.some((other) => !other.isKnown)) issues.push(...oddBeside(look));
    const firstDay = before.inServiceDate;
    if (!isKnown && firstDay !== null && test.date < firstDay) {
      const others = entries.map((other) => other.test);
      const why = oddWords.beforeFirstDay(test.date, firstDay);
      const offers = likelyDate([test], others, { firstDay, file: firstPlace(test).file });
      issues.push(warn(entry, "before-first-day", "test_date", why, offers));
    }
    lastOf.set(test.test, [...same.filter((other) => other.test.date >= (last?.test.date ?? "")), entry]);
  }
  return issues;
}

interface Look {
  readonly entry: Entry;
  /** The last test of the same kind on an earlier day. */
  readonly last: Entry | null;
  /** Tests of the same kind since then, before this one; those of its own day among them. */
  readonly sameDay: readonly Entry[];
  /** A test of the last day before; only for the first test of a day. */
  readonly visit: Entry | null;
  readonly entries: readonly Entry[];
  readonly model: EngineModel | null;
  readonly meterUnit: MeterUnit | null;
}

function oddBeside({ entry, last, sameDay, visit, entries, model, meterUnit }: Look): readonly RowIssue[] {
  const { test } = entry;
  const file = firstPlace(test).file;
  const issues: RowIssue[] = [];
  const near = last !== null && daysBetween(last.test.date, test.date) === 1 && sameReadings(test, last.test);
  if (near) {
    // Of the two, the one that comes in now is told of; it may be the earlier.
    const [told, other] = entry.isKnown ? [last, entry] : [entry, last];
    const at = firstPlace(told.test);
    const value = other.test.date;
    const cells = correctTest(told.test, at.file, { column: "test_date", was: told.test.date, value });
    const words = { kind: "test-date", words: proposalWords.dateIs(value), cells } as const;
    if (!told.isKnown)
      issues.push(warn(told, "near-repeat", "test_date", oddWords.nearRepeat(toldFrom(other, at)), [words]));
  }
  if (entry.isKnown) return issues;
  const from = firstPlace(test);
  issues.push(...sameDayRepeat(entry, sameDay));
  if (visit !== null && visit.test.meter === test.meter && daysBetween(visit.test.date, test.date) >= oneVisitDays) {
    const meter = `${numberWords(test.meter)} ${test.meterUnit}`;
    issues.push(warn(entry, "meter-equal", "meter", oddWords.meterEqual(meter, toldFrom(visit, from)), []));
  }
  const likely = likelyPressureUnit(test, last?.test ?? null, model);
  if (likely !== null) {
    const was = test.readings[0]?.valueUnit ?? "";
    const cells = correctTest(test, file, { column: "value_unit", was, value: likely });
    const proposal = { kind: "pressure-unit", words: proposalWords.pressuresIn(likely), cells } as const;
    const why = oddWords.pressureUnit(was, likely, last === null ? null : toldFrom(last, from));
    issues.push(warn(entry, "pressure-unit", "value_unit", why, [proposal]));
  } else if (areTooLow(test, last?.test ?? null, model)) {
    issues.push(warn(entry, "too-low", "value", oddWords.tooLow(lowestShare), []));
  } else if (areHeldAsLost(test, last?.test ?? null)) {
    issues.push(warn(entry, "held-as-lost", "value", oddWords.heldAsLost(heldPercent), []));
  } else if (last !== null && !near && isCopied(test, last.test)) {
    issues.push(warn(entry, "copied", null, oddWords.copied(toldFrom(last, from)), []));
  } else if (last !== null && model !== null && isReversed(test, last.test, model.cylinders)) {
    const cells = reverseCylinders(test, model.cylinders);
    const proposal = { kind: "cylinder-order", words: proposalWords.cylindersReversed } as const;
    const offers = cells === null ? [] : [{ ...proposal, cells }];
    issues.push(warn(entry, "cylinders-reversed", "cylinder", oddWords.reversed(toldFrom(last, from)), offers));
  }
  for (const { cylinder, value, likely } of decimalSlips(test)) {
    const reading = test.readings.find((one) => one.cylinder === cylinder);
    const at = reading === undefined ? from : placeOf(test, reading);
    const issue = { severity: "warning", code: "decimal-slip", column: reading?.column ?? "value" } as const;
    issues.push(issueAt(at, { ...issue, value: String(value) }, oddWords.decimalSlip(cylinder, value, likely)));
  }
  const jump = meterJump({ entry, visit, entries, meterUnit });
  return [...issues, ...(jump.length > 0 ? jump : meterFast(entry, visit))];
}

const instrumentKey = (instrument: string | null) => (instrument ?? "").toLowerCase().replace(/[\s_-]/g, "");

/**
 * The test of the same day and meter that only its instrument tells apart: blank in one of the two, or spelled otherwise.
 * With the same readings it would count twice; with others the file may correct what is known.
 */
function sameDayRepeat(entry: Entry, sameDay: readonly Entry[]): readonly RowIssue[] {
  const { test } = entry;
  const isOne = (a: string | null, b: string | null) =>
    a !== b && (a === null || b === null || instrumentKey(a) === instrumentKey(b));
  const other = sameDay.find(
    ({ test: earlier }) =>
      earlier.date === test.date &&
      earlier.attempt === test.attempt &&
      earlier.meter === test.meter &&
      isOne(earlier.instrument, test.instrument),
  );
  if (other === undefined) return [];
  const isSame = sameReadings(other.test, test);
  const told = [test.instrument ?? "blank", other.test.instrument ?? "blank"] as const;
  const say = isSame ? oddWords.sameDayRepeat : oddWords.sameDayOther;
  const why = say(toldFrom(other, firstPlace(test)), told);
  const code = isSame ? "same-day-repeat" : "same-day-other";
  const instrument = other.test.instrument;
  if (instrument === null) return [warn(entry, code, "instrument", why, [])];
  const was = test.instrument ?? "";
  const cells = correctTest(test, firstPlace(test).file, { column: "instrument", was, value: instrument });
  const words = proposalWords.instrumentIs(instrument);
  return [warn(entry, code, "instrument", why, [{ kind: "instrument", words, cells }])];
}

/** A meter of hours cannot run faster than the clock; no vehicle covers more in a day, month after month (common practice, no source). */
const mostADay = { h: 24, km: 1500, mi: 930 } as const;

/** A meter that ran further since the last day of tests than any unit works; a figure too many is the usual cause. */
function meterFast(entry: Entry, visit: Entry | null): readonly RowIssue[] {
  const { test } = entry;
  if (visit === null || visit.test.meterUnit !== test.meterUnit) return [];
  const ahead = test.meter - visit.test.meter;
  const days = daysBetween(visit.test.date, test.date);
  // The first of the tests may have been in the morning, and the last in the evening.
  if (ahead <= mostADay[test.meterUnit] * (days + 1)) return [];
  const told = (meter: number) => `${numberWords(meter)} ${test.meterUnit}`;
  const why = oddWords.meterFast(told(test.meter), toldFrom(visit, firstPlace(test)), told(ahead), days);
  return [warn(entry, "meter-fast", "meter", why, [])];
}

/**
 * An odometer in miles that was written down in km runs ahead by more than half: the unit would have worked far harder
 * than it did until now, and read in km it did not. Where nothing tells how hard it works, nothing is said: a young
 * unit's meter may well grow by half between two tests.
 */
function meterJump({
  entry,
  visit,
  entries,
  meterUnit,
}: Pick<Look, "entry" | "visit" | "entries" | "meterUnit">): readonly RowIssue[] {
  const { test } = entry;
  if (meterUnit !== "mi" || visit === null) return [];
  const other = inOtherUnit(test.meter, meterUnit);
  const perDay = usePerDay(entries, visit.test);
  if (other === null || perDay === null || other.meter < visit.test.meter) return [];
  const most = visit.test.meter + jumpTimes * perDay * daysBetween(visit.test.date, test.date);
  if (test.meter <= most || other.meter > most) return [];
  const cells = correctTest(test, firstPlace(test).file, {
    column: "meter",
    was: String(test.meter),
    value: String(other.meter),
  });
  const said = proposalWords.meterConverted(other.meter, other.from, meterUnit);
  const meters = [`${numberWords(test.meter)} ${meterUnit}`, `${numberWords(other.meter)} ${meterUnit}`] as const;
  const why = oddWords.meterJump(meters[0], toldFrom(visit, firstPlace(test)), meters[1]);
  return [warn(entry, "meter-jump", "meter", why, [{ kind: "meter-unit", words: said, cells }])];
}
/** From one test to the next a unit works up to twice as hard as it usually does, hardly more than that (measured). */
const jumpTimes = 2.5;

/** How far the meter ran a day from the first test of the unit up to `last`; null: nothing tells. */
function usePerDay(entries: readonly Entry[], last: TestFact): number | null {
  const first = entries[0]?.test;
  if (first === undefined || last.meter <= first.meter) return null;
  const days = daysBetween(first.date, last.date);
  return days < fewDays ? null : (last.meter - first.meter) / days;
}
/** Days of work before which nothing is known of how hard a unit works. */
const fewDays = 30;

const firstPlace = (test: TestFact): RowPlace =>
  test.readings.map((reading) => placeOf(test, reading)).sort(byPlace)[0] ?? { file: test.file, line: 1 };

const toldFrom = ({ test, isKnown }: Entry, from: RowPlace) => ({
  date: test.date,
  where: isKnown ? "known already" : words.rowOf(firstPlace(test), from.file),
});

function warn(
  { test }: Entry,
  code: string,
  column: string | null,
  why: string,
  proposals: readonly Proposal[],
): RowIssue {
  const value = column === "test_date" ? test.date : column === "meter" ? String(test.meter) : null;
  const issue = issueAt(firstPlace(test), { severity: "warning", code, column, value }, why);
  return withProposals(
    issue,
    proposals.filter((proposal) => proposal.cells.length > 0),
  );
}
