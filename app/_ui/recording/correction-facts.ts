import { testKey } from "../../../lib/intake/fact-keys.ts";
import type { Told } from "../../../lib/outtake/contract-csv.ts";
import type { JudgementFact, ReadingFact, TestFact } from "../../../lib/schema/facts.ts";
import { dateWords, measureWords } from "../../../lib/wording.ts";
import type { CorrectedTest } from "./correction-form.ts";

type Judgement = Omit<JudgementFact, "file" | "line">;

/** What a correction comes to as facts of one import. */
export interface CorrectionFacts {
  readonly told: Pick<Told, "tests" | "judgements">;
  /** Whether blanks of the test become blank (`FormFacts.tellsWhole`). */
  readonly tellsWhole: boolean;
  /** It has another name (unit, day, kind, attempt, tester): the old one is withdrawn. */
  readonly isRenamed: boolean;
}

/**
 * The facts of a correction: the test told again with what differs alone. One of another name is told whole beside the old
 * one, which is withdrawn; what persons made of it goes along. A cylinder that lost its reading to another is withdrawn too.
 * `test`: as it stands, with the readings that were withdrawn; `judged`: what persons made of it.
 */
export function correctionFacts(
  corrected: CorrectedTest,
  test: TestFact,
  { judged, by }: { readonly judged: readonly JudgementFact[]; readonly by: string },
): CorrectionFacts {
  const isRenamed = testKey(corrected.test) !== testKey(test);
  const judgements = judgedAnew(corrected, test, { judged, by, isRenamed });
  if (isRenamed) return { told: { tests: [corrected.test], judgements }, tellsWhole: false, isRenamed };
  const blanks = hasNewBlanks(corrected.test, test);
  const tests = [blanks ? changedOnly(corrected.test, test) : leanOf(corrected.test, test)];
  return { told: { tests, judgements }, tellsWhole: blanks, isRenamed };
}

const besideOf = ({ readings }: TestFact) => new Map(readings.map((reading) => [reading.cylinder, reading]));

const optionalOfReading = ["supply", "firstStroke", "heardAt", "order", "remarks"] as const;
const optionalOfTest = [
  "time",
  "depot",
  "engineSerial",
  "engineModel",
  "testedBy",
  "orificeMm",
  "warm",
  "throttleOpen",
  "allPlugsOut",
  "tdcConfirmed",
  "gaugeZeroed",
  "crankingRpm",
  "altitudeM",
  "barometerKpa",
] as const satisfies readonly (keyof TestFact)[];

const isBlank = (value: unknown): boolean => value === null || (Array.isArray(value) && value.length === 0);
const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

const differs = (reading: ReadingFact, before: ReadingFact | undefined): boolean =>
  before === undefined ||
  (["value", "valueUnit", ...optionalOfReading] as const).some((column) => !isSame(reading[column], before[column]));

/** Whether something that is on file would have to become blank, which a blank cell alone does not say. */
function hasNewBlanks(test: TestFact, before: TestFact): boolean {
  if (optionalOfTest.some((column) => test[column] === null && before[column] !== null)) return true;
  const known = besideOf(before);
  return test.readings.some((reading) => {
    const was = known.get(reading.cylinder);
    return was !== undefined && optionalOfReading.some((column) => isBlank(reading[column]) && !isBlank(was[column]));
  });
}

/** A test has to have a reading to be told. */
function changedOnly(test: TestFact, before: TestFact): TestFact {
  const known = besideOf(before);
  const changed = test.readings.filter((reading) => differs(reading, known.get(reading.cylinder)));
  return { ...test, readings: changed.length === 0 ? test.readings.slice(0, 1) : changed };
}

/** Cells that stay as they are stay blank, so that they fall with the import that told them and not with this one. */
function leanOf(test: TestFact, before: TestFact): TestFact {
  const known = besideOf(before);
  const told = changedOnly(test, before);
  const same = optionalOfTest.filter((column) => isSame(test[column], before[column]));
  return {
    ...told,
    ...Object.fromEntries(same.map((column) => [column, null])),
    readings: told.readings.map((reading) => {
      const was = known.get(reading.cylinder);
      // These are read in the unit of the value, so they are told with it.
      const unitStays = was?.valueUnit === reading.valueUnit;
      const keeps = (column: "supply" | "firstStroke") =>
        unitStays && reading[column] === was[column] ? null : reading[column];
      return {
        ...reading,
        supply: keeps("supply"),
        firstStroke: keeps("firstStroke"),
        heardAt: was !== undefined && isSame(reading.heardAt, was.heardAt) ? [] : reading.heardAt,
        order: reading.order === was?.order ? null : reading.order,
        remarks: reading.remarks === was?.remarks ? null : reading.remarks,
      };
    }),
  };
}

/** "leak-down of V-102 on 12 Jun 2025, attempt 2": kind and day, and what else of its name is other. */
function nameWords(test: TestFact, before: TestFact): string {
  const of = test.unit === before.unit ? "of" : `of ${test.unit} on`;
  return [
    `${measureWords[test.test]} ${of} ${dateWords(test.date)}`,
    ...(test.attempt === before.attempt ? [] : [`attempt ${test.attempt}`]),
    ...(test.instrument === before.instrument ? [] : [test.instrument ?? "tester not recorded"]),
  ].join(", ");
}

function judgedAnew(
  { test, stoodBeside, reason }: CorrectedTest,
  before: TestFact,
  known: { readonly judged: readonly JudgementFact[]; readonly by: string; readonly isRenamed: boolean },
): readonly Judgement[] {
  const { judged, by, isRenamed } = known;
  const name = ({ unit, date, test: kind, attempt, instrument }: TestFact) => ({
    unit,
    date,
    test: kind,
    attempt,
    instrument,
  });
  const told: Judgement[] = [];
  const ofOld = (cylinder: number | null) => judged.find((one) => one.cylinder === cylinder && one.verdict !== "none");
  if (isRenamed) {
    const why = `told again as ${nameWords(test, before)}: ${reason}`;
    told.push({ ...name(before), cylinder: null, verdict: "withdrawn", reason: why, judgedBy: by });
    const whole = ofOld(null);
    if (whole !== undefined) told.push(saying(whole, name(test), null));
  }
  const left = new Set(test.readings.map(({ cylinder }) => cylinder));
  for (const [place, { cylinder }] of test.readings.entries()) {
    const was = ofOld(stoodBeside[place] ?? cylinder);
    const here = isRenamed ? undefined : ofOld(cylinder);
    if (was !== undefined && was !== here) told.push(saying(was, name(test), cylinder));
    else if (was === undefined && here !== undefined)
      told.push({ ...name(test), cylinder, verdict: "none", reason, judgedBy: by });
  }
  if (isRenamed) return told;
  for (const [place, cylinder] of stoodBeside.entries()) {
    if (left.has(cylinder)) continue;
    const why = `told again as cylinder ${test.readings[place]?.cylinder}: ${reason}`;
    told.push({ ...name(before), cylinder, verdict: "withdrawn", reason: why, judgedBy: by });
  }
  return told;
}

const saying = (
  { verdict, reason, judgedBy }: JudgementFact,
  name: Pick<JudgementFact, "unit" | "date" | "test" | "attempt" | "instrument">,
  cylinder: number | null,
): Judgement => ({ ...name, cylinder, verdict, reason, judgedBy });
