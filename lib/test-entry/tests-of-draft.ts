import type { ReadingFact, TestFact } from "../schema/facts.ts";
import type { TestDraft } from "../schema/test-draft.ts";
import { setUpRemark } from "./set-up.ts";

type Written<F> = Omit<F, "file" | "line">;
/** A test before it has a file that it stands in. */
export type EnteredTest = Written<Omit<TestFact, "readings">> & { readonly readings: readonly Written<ReadingFact>[] };

/** Of the tests on file, those that a draft's would be attempts beside: same unit, day, kind of test and instrument. */
export const attemptsOnFile = (
  draft: Pick<TestDraft, "unit" | "date" | "test" | "instrument">,
  tests: readonly Pick<TestFact, "unit" | "date" | "test" | "instrument" | "attempt">[],
): number =>
  Math.max(
    0,
    ...tests
      .filter(
        ({ unit, date, test, instrument }) =>
          unit === draft.unit && date === draft.date && test === draft.test && instrument === draft.instrument,
      )
      .map(({ attempt }) => attempt),
  );

/**
 * The tests that a filled-in sheet tells of. The contract knows one reading of a cylinder in a test, so the second of a
 * cylinder begins the next attempt, which holds those measured again and no other. Attempts count on from `onFile`, so
 * that a second sheet of the same day stands beside the first and never in its place. `order` tells the places within
 * each attempt.
 */
export function testsOfDraft(draft: TestDraft, { onFile }: { readonly onFile: number }): readonly EnteredTest[] {
  const attempts: TestDraft["readings"][] = [];
  const taken = new Map<number, number>();
  for (const reading of draft.readings) {
    const nth = taken.get(reading.cylinder) ?? 0;
    taken.set(reading.cylinder, nth + 1);
    attempts[nth] = [...(attempts[nth] ?? []), reading];
  }
  return attempts.map((readings, nth) => testOf(draft, readings, { attempt: onFile + nth + 1, isFirst: nth === 0 }));
}

function testOf(
  draft: TestDraft,
  readings: TestDraft["readings"],
  { attempt, isFirst }: { readonly attempt: number; readonly isFirst: boolean },
): EnteredTest {
  const { warm, throttleOpen, allPlugsOut, tdcConfirmed, gaugeZeroed } = draft.setUp;
  const ofTest = isFirst ? [setUpRemark(draft.test, draft.setUp), draft.remarks] : [];
  const isLeakDown = draft.test === "leak-down";
  return {
    unit: draft.unit,
    date: draft.date,
    time: null,
    meter: draft.meter,
    meterUnit: draft.meterUnit,
    test: draft.test,
    attempt,
    instrument: draft.instrument,
    depot: draft.depot,
    engineSerial: null,
    engineModel: null,
    testedBy: draft.testedBy,
    orificeMm: isLeakDown ? draft.orificeMm : null,
    warm,
    throttleOpen,
    allPlugsOut,
    tdcConfirmed,
    gaugeZeroed,
    crankingRpm: isLeakDown ? null : draft.crankingRpm,
    altitudeM: null,
    barometerKpa: null,
    readings: readings
      .map((reading, place) => ({
        cylinder: reading.cylinder,
        value: reading.value,
        valueUnit: draft.valueUnit,
        supply: isLeakDown ? draft.supply : null,
        firstStroke: isLeakDown ? null : reading.firstStroke,
        heardAt: isLeakDown ? reading.heardAt : [],
        order: place + 1,
        // The test as a whole has no remarks of its own: its first reading carries them.
        remarks: remarkOf([...(place === 0 ? ofTest : []), reading.remarks, ...reading.asked.map(keptWords)]),
      }))
      .toSorted((a, b) => a.cylinder - b.cylinder),
  };
}

const keptWords = (asked: string): string => `Asked at entry: ${asked} Kept as read.`;

/** As one line: a cell of a file holds no line breaks or other control characters. */
function remarkOf(parts: readonly (string | null)[]): string | null {
  const line = parts
    .filter((part) => part !== null)
    .join(" ")
    .replace(/[\p{Cc}\s]+/gu, " ")
    .trim();
  return line === "" ? null : line;
}
