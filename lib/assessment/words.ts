import { givesBaseline } from "../condition/lives.ts";
import { noTest, type TestInterval, testDue } from "../condition/test-due.ts";
import { fewestTests } from "../projection/project.ts";
import type { Telling } from "../projection/tell.ts";
import { daysFor } from "../projection/use-ahead.ts";
import type { CylinderAssessment } from "../schema/assessment.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Band, MeterUnit } from "../schema/words.ts";
import type { EngineHistory, SealedTest, UnitHistory } from "../sealing/types.ts";
import { cylinderWords, dateWords, meterWords, sentenceWords } from "../wording.ts";
import type { EngineState } from "./engine.ts";

export interface WarningsInput {
  readonly unit: UnitHistory;
  readonly state: EngineState;
  readonly lastTestDate: IsoDate | null;
  readonly xNow: number;
  readonly telling: Telling;
  readonly testInterval: TestInterval | undefined;
}

/** Whether the unit's next test is due, by its interval from the last test with a reading that is used. */
export function unitTestDue({ unit, state, lastTestDate, xNow, telling, testInterval }: WarningsInput) {
  const { history, tests } = state.conditioned;
  const last = tests.findLast(({ weights }) => weights.some((weight) => weight > 0))?.test;
  return testDue({
    lastTest: last === undefined ? null : { date: last.date, x: last.x },
    without: lastTestDate !== null ? "noneUsable" : cameBySwap(history, unit) ? "neverSinceSwap" : "never",
    setAside: last !== undefined && lastTestDate !== null && last.date < lastTestDate,
    now: { date: telling.asOf, x: xNow },
    interval: testInterval,
    daysFor: (distance) => daysFor(telling.use, distance),
    meterUnit: unit.meterUnit,
  });
}

/** The engine now in the unit was swapped in: what was tested there before was another one. */
const cameBySwap = ({ repairs }: EngineHistory, { unit }: Pick<UnitHistory, "unit">): boolean =>
  repairs.some((repair) => repair.scope === "engine-swap" && repair.unit === unit);

/** What a person should know beside the figures: the history's own doubts, doubtful tests, an overdue or missing test. */
export function unitWarnings(input: WarningsInput): string[] {
  const { unit, state } = input;
  const due = unitTestDue(input);
  const doubtful = state.conditioned.tests.flatMap(({ test, doubts }) =>
    doubts
      .filter((d) => d.code !== "repeated-the-same-day" && d.code !== "break-in")
      .map((d) => `Test of ${dateWords(test.date)}: ${d.words}`),
  );
  // One measure with tests enough gives the cylinder its range, however seldom the other was taken.
  const few = state.cylinders.filter(({ measures }) => {
    const taken = measures.filter((m) => m.limit !== null && m.wear.tests > 0);
    return taken.length > 0 && taken.every((m) => !m.wear.enough);
  });
  return [
    ...unit.warnings,
    ...statusWarnings(unit),
    ...repairDayWarnings(state.conditioned.history.tests),
    ...(due.overdue || input.lastTestDate === null ? [due.words] : []),
    ...(few.length === 0
      ? []
      : [
          `Fewer than ${fewestTests} usable tests of one life for ${cylinderWords(few.map((c) => c.diagnosis.cylinder))}: no range yet`,
        ]),
    ...doubtful,
    ...disposalWarnings(unit, input.telling.asOf),
  ];
}

function disposalWarnings({ disposalDate, status }: UnitHistory, asOf: IsoDate): string[] {
  if (disposalDate === null) return [];
  const planned = `Planned for disposal on ${dateWords(disposalDate)}`;
  if (disposalDate > asOf || status === "retired") return [planned];
  return [
    `${planned}, which has passed, and the unit is not retired: retire it if it is gone, else give its new date; until then it is forecast as if it stayed`,
  ];
}

function statusWarnings({ status, meterPoints }: UnitHistory): string[] {
  if (status === "in-service") return [];
  const last = meterPoints.at(-1);
  const since = last === undefined ? "" : ` since its last meter reading on ${dateWords(last.date)}`;
  return [`${sentenceWords(status)}: no use assumed${since}`];
}

/** Which order of work was assumed on days on which an engine was tested and repaired at one meter reading. */
function repairDayWarnings(tests: readonly SealedTest[]): string[] {
  const days = new Map<IsoDate, boolean>();
  for (const { date, repairSameDay } of tests) {
    if (repairSameDay !== undefined) days.set(date, (days.get(date) ?? false) || repairSameDay === "after");
  }
  return [...days].map(
    ([date, isRepeated]) =>
      `Test and repair on the same day at the same meter, ${dateWords(date)}: ${
        isRepeated
          ? "the last attempt is taken as made after the repair, what came before it as made before"
          : "the test is taken as made before the repair"
      }`,
  );
}

/** Use in a year below which an engine suffers more from standing than from work. Judgement. */
const littleUseAYear: Readonly<Record<MeterUnit, number>> = { h: 100, km: 4000, mi: 2500 };

/**
 * Said of a unit that hardly works and does not seal well: rust on valves and bores, stuck rings, dry seals. A warm run
 * cures some of it, so a reading taken after standing is no ground for a repair. null: it works, seals well, or is out of
 * service, which is said by itself.
 */
export function standingWords(band: Band | null, { use }: Telling, meterUnit: MeterUnit): string | null {
  const yearly = 365 * use.perDay;
  if (band === null || band === "sound" || yearly === 0 || yearly >= littleUseAYear[meterUnit]) return null;
  const works = yearly < 1 ? "Hardly works" : `Works only about ${meterWords(yearly, meterUnit)} a year`;
  return `${works}: standing may have done more damage than wear; test again after a warm run`;
}

/** Said of a unit that was tested and repaired, but since then not so that a reading could be used. */
const noneSinceRepair = "no usable test since the last repair";

/** Why a unit has its band: the reasons of the cylinders that have it. `unit`: which one, and its engine's history. */
export function unitReason(
  cylinders: readonly CylinderAssessment[],
  band: Band | null,
  { unit, history }: { readonly unit: string; readonly history: EngineHistory },
): string {
  if (band === null) {
    if (cylinders.every((c) => c.measures.length === 0)) {
      return cameBySwap(history, { unit }) ? noTest.neverSinceSwap : noTest.never;
    }
    return history.repairs.some(givesBaseline) ? noneSinceRepair : noTest.noneUsable;
  }
  const byReason = new Map<string, number[]>();
  for (const c of cylinders.filter((c) => c.band === band)) {
    byReason.set(c.reason, [...(byReason.get(c.reason) ?? []), c.cylinder]);
  }
  return [...byReason].map(([reason, which]) => `${cylinderWords(which)}: ${reason}`).join("; ");
}
