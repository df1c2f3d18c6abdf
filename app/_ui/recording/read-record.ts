import { knowsUnit } from "../../../db/assessments.ts";
import { engineNow, unitsFittedWith } from "../../../db/engines-now.ts";
import { fleetFacts } from "../../../db/facts.ts";
import type { Store } from "../../../db/store.ts";
import { repairKey } from "../../../lib/intake/fact-keys.ts";
import type { RepairFact } from "../../../lib/schema/facts.ts";
import type { UnitReport } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { withdrawnBy } from "../../../lib/withdrawn.ts";
import { checkWords, cylinderWords, measureWords, scopeWords } from "../../../lib/wording.ts";
import { type Recorded, seenOf, testOf } from "../../_jobs/record-facts.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import type { ChangeLine } from "../change-cells.tsx";
import { statusWords } from "../status-words.ts";
import { readCheck } from "./check-form.ts";
import { correctionFacts } from "./correction-facts.ts";
import type { CorrectionFields } from "./correction-fields.ts";
import { readCorrection } from "./correction-form.ts";
import { readDisposal } from "./disposal-form.ts";
import { type EngineFields, readEngine } from "./engine-form.ts";
import type { ReadRecord, RecordContext } from "./fields.ts";
import { readMeter, readNewMeter } from "./meter-form.ts";
import type { RecordFields } from "./record-fields.ts";
import { readRepair } from "./repair-form.ts";
import { readStatus } from "./status-form.ts";
import { testChanges } from "./test-changes.ts";
import { type JudgementFields, readJudgement } from "./test-form.ts";
import { verdictWords } from "./test-words.ts";

/** What a form told: the facts, and how they are named and shown before they are kept. */
export interface ReadForm extends Recorded {
  readonly reads: readonly ChangeLine[];
}

export interface Reading {
  readonly store: Store;
  readonly report: UnitReport;
  readonly context: RecordContext;
  readonly f: Formats;
}

type Answer = ({ readonly ok: true } & ReadForm) | { readonly ok: false; readonly problems: FieldProblems };

/** Reads any form of this folder beside what is known. A test that is not on file any more is `null`. */
export async function readRecord(fields: RecordFields, reading: Reading): Promise<Answer | null> {
  switch (fields.what) {
    case "repair":
      return answer(readRepair(fields, reading.context), await repairForm(reading));
    case "check":
      return answer(readCheck(fields, reading.context), (check) => ({
        title: `${check.unit}: ${checkWords[check.check]}, ${check.date}`,
        told: { checks: [check] },
      }));
    case "meter":
      return answer(readMeter(fields, reading.context), (meter) => ({
        title: `${meter.unit}: meter reading, ${meter.date}`,
        told: { meterReadings: [meter] },
      }));
    case "new-meter":
      return answer(readNewMeter(fields, reading.context), (meterReadings) => ({
        title: `${reading.context.unit}: new meter, ${meterReadings[0]?.date}`,
        told: { meterReadings },
        reads: [meterLine(meterReadings, reading)],
      }));
    case "engine":
      return readSwap(fields, reading);
    case "status": {
      const now = reading.report.status;
      return answer(readStatus(fields, { ...reading.context, now }), (unit) => ({
        title: oneLine(`${unit.unit}: ${unit.status}, ${unit.statusReason}`),
        told: { units: [unit] },
        reads: [{ column: "Status", before: statusWords[now], after: statusWords[unit.status ?? now] }],
      }));
    }
    case "disposal": {
      const now = reading.report.assessment.soldBefore?.date ?? null;
      return answer(readDisposal(fields, { ...reading.context, now }), (unit) => ({
        title: `${unit.unit}: planned disposal, ${unit.disposalDate}`,
        told: { units: [unit] },
        reads: [disposalLine(now, unit.disposalDate, reading)],
      }));
    }
    case "judgement":
      return readJudged(fields, reading);
    case "correction":
      return readCorrected(fields, reading);
  }
}

type Form = Recorded & Partial<Pick<ReadForm, "reads">>;

const answer = <T>(read: ReadRecord<T>, form: (value: T) => Form): Answer =>
  read.ok ? { reads: [], ...form(read.value), ok: true } : read;

/** A title stands in one line of a list. */
const oneLine = (text: string): string => text.replace(/\s+/g, " ").slice(0, 300);

type Repair = Omit<RepairFact, "file" | "line">;

/** A repair of the same day, scope and cylinders is the same one, told anew. */
async function repairForm({ store, report, context, f }: Reading): Promise<(repair: Repair) => Form> {
  const { repairs } = await fleetFacts(store, { units: [context.unit] });
  const all = Array.from({ length: report.model.cylinders }, (_, i) => i + 1);
  return (repair) => {
    const known = repairs.some((one) => one.unit === repair.unit && repairKey(one) === repairKey(repair));
    const which = cylinderWords(repair.cylinders === "all" ? all : repair.cylinders);
    const words = `${scopeWords[repair.scope]}, ${which}, on ${f.date(repair.date)}`;
    return {
      title: `${repair.unit}: ${scopeWords[repair.scope]}, ${repair.date}`,
      told: { repairs: [repair] },
      reads: [
        known
          ? { column: "Repair", before: `${words}, as it is on file`, after: `${words}, as told here` }
          : { column: "Repair", before: "not on file", after: words },
      ],
    };
  };
}

function meterLine(readings: readonly { readonly meter: number }[], { report, f }: Reading): ChangeLine {
  const { unit, value } = report.assessment.meter;
  const last = readings.length > 1 ? (readings[0]?.meter ?? value) : value;
  return { column: "Meter", before: f.meter(last, unit), after: f.meter(readings.at(-1)?.meter ?? 0, unit) };
}

function disposalLine(before: string | null, after: string | null, { f }: Reading): ChangeLine {
  const words = (date: string | null) => (date === null ? "none" : f.date(date));
  return { column: "Planned disposal", before: words(before), after: words(after) };
}

async function readSwap(fields: EngineFields, { store, context }: Reading): Promise<Answer> {
  const { unit } = context;
  const other = fields.otherUnit.trim();
  const serials = [fields.serial, fields.outSerial, fields.otherSerial].map((serial) => serial.trim());
  const [known, others, fitted] = await Promise.all([
    engineNow(store, unit),
    other === "" ? null : engineNow(store, other),
    unitsFittedWith(
      store,
      serials.filter((serial) => serial !== ""),
    ),
  ]);
  const engines = {
    known: known ?? { serial: null, isFirst: true },
    unitOf: (name: string) => (name === other ? others : null),
    fittedIn: (serial: string) => fitted.get(serial) ?? null,
  };
  const named = (serial: string | null | undefined) => serial ?? "not known by number";
  return answer(readEngine(fields, { ...context, ...engines }), ({ repairs, units }) => {
    const [own, theirs] = repairs;
    const line = (of: string, before: string | null | undefined, after: string | null | undefined): ChangeLine => ({
      column: `Engine of ${of}`,
      before: named(before),
      after: named(after),
    });
    const outgoing = units.find((row) => row.unit === unit)?.engineSerial ?? engines.known.serial;
    return {
      title: `${[unit, ...(theirs === undefined ? [] : [theirs.unit])].join(" and ")}: engine swap, ${own?.date}`,
      told: { repairs, units },
      reads: [
        line(unit, outgoing, own?.engineSerial),
        ...(theirs === undefined ? [] : [line(theirs.unit, own?.engineSerial, theirs.engineSerial)]),
      ],
    };
  });
}

const changedMeanwhile = "The test was changed by somebody else meanwhile. Load the page again and look at it.";

type Named = Pick<JudgementFields, "date" | "test" | "attempt" | "instrument">;

const standingIn = ({ store, context }: Reading, { date, test, attempt, instrument }: Named) =>
  testOf(store, { unit: context.unit, date, test, attempt, instrument });

const titleOf = (unit: string, { test, date }: Named, says: string): string =>
  oneLine(`${unit}: ${measureWords[test]} of ${date} ${says}`);

async function readJudged(fields: JudgementFields, reading: Reading): Promise<Answer | null> {
  const known = await standingIn(reading, fields);
  if (known === null) return null;
  const { test, judged } = known;
  return answer(readJudgement(fields, test, { ...reading.context, judged }), (judgement) => {
    const before = judged.find(({ cylinder }) => cylinder === judgement.cylinder)?.verdict ?? "none";
    const which = judgement.cylinder === null ? "The whole test" : `Cylinder ${judgement.cylinder}`;
    return {
      title: titleOf(judgement.unit, judgement, `${verdictWords[judgement.verdict]}: ${judgement.reason}`),
      told: { judgements: [judgement] },
      reads: [{ column: which, before: verdictWords[before], after: verdictWords[judgement.verdict] }],
      corrects: { ...judgement, seen: fields.seen },
    };
  });
}

async function readCorrected(fields: CorrectionFields, reading: Reading): Promise<Answer | null> {
  const known = await standingIn(reading, fields);
  if (known === null) return null;
  const { test, judged } = known;
  const counts = withdrawnBy(judged).left(test);
  if (counts === null) return null;
  // The fields stand for another test than is on file by now.
  if (seenOf(test) !== fields.seen) return { ok: false, problems: { reason: changedMeanwhile } };
  const { store, context, f } = reading;
  const read = readCorrection(fields, counts, context);
  if (!read.ok) return read;
  const { test: corrected, reason } = read.value;
  const { told, tellsWhole, isRenamed } = correctionFacts(read.value, test, { judged, by: context.by });
  if (corrected.unit !== test.unit && !(await knowsUnit(store, corrected.unit))) {
    return { ok: false, problems: { asUnit: `No unit ${corrected.unit} is known.` } };
  }
  if (isRenamed && (await testOf(store, corrected)) !== null) {
    const words =
      "A test of this unit, day, kind, attempt and tester is on file. Give another attempt, or look at that one.";
    return { ok: false, problems: { asAttempt: words } };
  }
  return answer({ ok: true, value: told }, () => ({
    title: titleOf(test.unit, test, `corrected: ${reason}`),
    told,
    tellsWhole,
    reads: testChanges(counts, corrected, f),
    corrects: { ...test, seen: fields.seen },
    asNew: isRenamed ? corrected : null,
  }));
}
