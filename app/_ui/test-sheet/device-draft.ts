import { z } from "zod";
import { type DraftSetUp, mostReadings, type TestDraft, testDraftSchema } from "../../../lib/schema/test-draft.ts";
import type { PressureUnit } from "../../../lib/schema/words.ts";
import type { Entry, EntryTerms } from "../../../lib/test-entry/entry.ts";
import { type SetUpQuestion, stopsOf } from "../../../lib/test-entry/set-up.ts";
import type { MeasureFacts, SheetFacts } from "../../../lib/test-entry/sheet-facts.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type DecimalSign, figureOf, figureProblem } from "../figures.ts";

/**
 * A test as the device keeps it while it is entered: figures of the fields as they were typed, readings as they were
 * kept. Nothing of it leaves the device before it is finished.
 */

const { shape } = testDraftSchema;
const typed = z.string().max(1_000);

const fieldNames = [
  "date",
  "meter",
  "supply",
  "orificeMm",
  "crankingRpm",
  "instrument",
  "testedBy",
  "remarks",
] as const;
export type FieldName = (typeof fieldNames)[number];

export const steps = ["set-up", "cylinders", "end"] as const;
export type Step = (typeof steps)[number];

const typingSchema = z.object({
  cylinder: z.number().int().nullable(),
  value: typed,
  firstStroke: typed,
  heardAt: shape.readings.element.shape.heardAt,
  remarks: typed,
  isAsked: z.boolean(),
});
type Typing = z.infer<typeof typingSchema>;

export const deviceDraftSchema = z.object({
  /** What an older or newer page kept is not read as this. */
  version: z.literal(1),
  id: shape.id,
  unit: shape.unit,
  depot: shape.depot,
  test: shape.test,
  valueUnit: shape.valueUnit,
  meterUnit: shape.meterUnit,
  step: z.enum(steps),
  fields: z.object(Object.fromEntries(fieldNames.map((name) => [name, typed])) as Record<FieldName, typeof typed>),
  setUp: shape.setUp,
  readings: z.array(shape.readings.element),
  /** The reading that is being entered, and whether it was asked about. */
  typing: typingSchema,
  /** What was typed for other cylinders and not kept yet, at most once for each. */
  parked: z.array(typingSchema).default([]),
  /**
   * `no`: it is being entered. `waiting`: finished, and no sending of it has begun. `tried`: sent, and no answer came: it
   * may have arrived, so it is changed no more.
   */
  sending: z.enum(["no", "waiting", "tried"]),
  /** The id that it is sent by, where the server takes no sending of `id` any more; null: `id`. */
  sentAs: shape.id.nullable().default(null),
  /** Why the server did not take it; null: it did not say so. */
  refusal: z.string().nullable(),
  /** The import that it is kept as; null: not sent. */
  sent: z.string().nullable(),
});
export type DeviceDraft = z.infer<typeof deviceDraftSchema>;

const blankTyping: Typing = {
  cylinder: null,
  value: "",
  firstStroke: "",
  heardAt: [],
  remarks: "",
  isAsked: false,
};

const nothingConfirmed: DraftSetUp = {
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  batterySupported: null,
  fuelAndIgnitionOff: null,
  crankshaftHeld: null,
};

/** A sheet as it begins. Its gauge reads in the viewer's unit of pressure until the person says otherwise. */
export function newDraft(given: {
  readonly id: string;
  readonly facts: SheetFacts;
  readonly of: MeasureFacts;
  readonly date: string;
  readonly testedBy: string;
  readonly pressure: PressureUnit;
}): DeviceDraft {
  const { id, facts, of, date, testedBy, pressure } = given;
  const { tester } = of;
  return {
    version: 1,
    id,
    unit: facts.unit,
    depot: facts.depot,
    test: of.test,
    valueUnit: of.test === "leak-down" ? (of.lastHeld?.valueUnit ?? "%") : pressure,
    meterUnit: facts.meter.unit,
    step: "set-up",
    fields: {
      date,
      meter: "",
      supply: "",
      orificeMm: tester === null ? "" : String(tester.orificeMm),
      crankingRpm: "",
      instrument: "",
      testedBy,
      remarks: "",
    },
    setUp: nothingConfirmed,
    readings: [],
    typing: blankTyping,
    parked: [],
    sending: "no",
    sentAs: null,
    refusal: null,
    sent: null,
  };
}

/** The sheet changed by whoever enters it; one that is finished is changed no more (another page may have finished it). */
export const entered = (draft: DeviceDraft, change: (draft: DeviceDraft) => DeviceDraft): DeviceDraft =>
  draft.sending === "no" ? change(draft) : draft;

/**
 * An answer of no taken back to "not confirmed", so that the test goes on; the notes of the test keep that it was given.
 * The person's own words are never cut for it.
 */
export function leftUnconfirmed(draft: DeviceDraft, { id, asks }: Pick<SetUpQuestion, "id" | "asks">): DeviceDraft {
  const note = `${asks}: answered with no, then left not confirmed.`;
  const { remarks } = draft.fields;
  const noted = remarks.includes(note) ? remarks : `${remarks} ${note}`.trim();
  const fits = typed.safeParse(noted).success;
  return {
    ...draft,
    fields: { ...draft.fields, remarks: fits ? noted : remarks },
    setUp: { ...draft.setUp, [id]: null },
  };
}

/** Back to entering, while no sending has begun. */
export const takenUpAgain = (draft: DeviceDraft): DeviceDraft =>
  draft.sending === "waiting" ? { ...draft, sending: "no" } : draft;

/** The figure of a field; null where it is blank or cannot be read. */
const figureIn = (text: string, sign: DecimalSign): number | null => {
  const figure = figureOf(text, sign);
  return figure === null || Number.isNaN(figure) ? null : figure;
};

/** Prefilled figures are printed with a point for everybody; a bore is never written in thousands. */
const boreSign: DecimalSign = ".";

export const termsOf = ({ test, valueUnit, fields }: DeviceDraft, sign: DecimalSign): EntryTerms => ({
  test,
  valueUnit,
  supply: test === "leak-down" ? figureIn(fields.supply, sign) : null,
  orificeMm: test === "leak-down" ? figureIn(fields.orificeMm, boreSign) : null,
});

const answerAnew = "It was answered with no. Put it right at the engine and answer anew, or leave it not confirmed.";
const notAFigure = "Write a figure, such as 1150 or 12.5.";

function problemOf(text: string, sign: DecimalSign): string | null {
  const figure = figureOf(text, sign);
  return figure !== null && Number.isNaN(figure) ? (figureProblem(text, sign) ?? notAFigure) : null;
}

/** The reading that is being entered, or why not, beside the field that it is in. */
export function entryTyped(
  { typing }: Pick<DeviceDraft, "typing">,
  sign: DecimalSign,
): { readonly entry: Entry } | { readonly problems: FieldProblems } {
  const problems: Record<string, string> = {};
  const value = figureOf(typing.value, sign);
  const unclear = problemOf(typing.value, sign) ?? (value === null ? "Write what the gauge reads." : null);
  if (unclear !== null) problems["value"] = unclear;
  const first = problemOf(typing.firstStroke, sign);
  if (first !== null) problems["firstStroke"] = first;
  if (typing.cylinder === null || value === null || Object.keys(problems).length > 0) return { problems };
  return { entry: { cylinder: typing.cylinder, value, firstStroke: figureOf(typing.firstStroke, sign) } };
}

const isBlank = ({ value, firstStroke, heardAt, remarks }: Typing): boolean =>
  `${value}${firstStroke}${remarks}`.trim() === "" && heardAt.length === 0;

/** Turns to a cylinder. What was typed stays with the cylinder that it was typed for, and is there on the way back. */
export function atCylinder(draft: DeviceDraft, cylinder: number | null): DeviceDraft {
  const { typing } = draft;
  const all = typing.cylinder === null ? draft.parked : [...draft.parked, { ...typing, isAsked: false }];
  return {
    ...draft,
    typing: all.find((each) => each.cylinder === cylinder) ?? { ...blankTyping, cylinder },
    parked: all.filter((each) => each.cylinder !== cylinder && !isBlank(each)),
  };
}

/** What was typed and not kept as a reading, by cylinder. */
export const notKept = ({ typing, parked }: Pick<DeviceDraft, "typing" | "parked">): readonly Typing[] =>
  [...parked, typing]
    .filter((each) => each.cylinder !== null && !isBlank(each))
    .sort((a, b) => (a.cylinder ?? 0) - (b.cylinder ?? 0));

/** What is to be said of that before the test is sent; null: all that was typed is kept. */
export function notKeptWords(draft: Pick<DeviceDraft, "typing" | "parked">): string | null {
  const waiting = notKept(draft).map(({ cylinder, value }) =>
    value.trim() === "" ? `cylinder ${cylinder}` : `cylinder ${cylinder} (${value.trim()})`,
  );
  if (waiting.length === 0) return null;
  return `Typed but not kept: ${waiting.join(", ")}. Go back to the cylinders, and keep the reading or empty its fields.`;
}

/** Whether the cylinder may be measured once more on this sheet. */
export const takesMore = ({ readings }: Pick<DeviceDraft, "readings">, cylinder: number): boolean =>
  readings.filter((reading) => reading.cylinder === cylinder).length < mostReadings;

/** Keeps the reading that was entered, with what was asked about it. */
export function withReading(draft: DeviceDraft, entry: Entry, asked: readonly string[]): DeviceDraft {
  const { heardAt, remarks } = draft.typing;
  const reading = { ...entry, heardAt, remarks: remarks.trim() || null, asked: [...asked] };
  return { ...draft, readings: [...draft.readings, reading], typing: blankTyping };
}

export const withoutReading = (draft: DeviceDraft, place: number): DeviceDraft => ({
  ...draft,
  readings: draft.readings.filter((_, i) => i !== place),
});

/** Where a field of an earlier step than the last is put right, and how it is called in a sentence. */
const earlierFields: Readonly<Record<string, { readonly step: Step; readonly label: string }>> = {
  supply: { step: "set-up", label: "Supply" },
  orificeMm: { step: "set-up", label: "Restrictor bore" },
  crankingRpm: { step: "set-up", label: "Cranking speed" },
  instrument: { step: "set-up", label: "Gauge or tester" },
  testedBy: { step: "set-up", label: "Tested by" },
  fuelAndIgnitionOff: { step: "set-up", label: "Fuel and ignition disabled" },
  crankshaftHeld: { step: "set-up", label: "Crankshaft held" },
  readings: { step: "cylinders", label: "Readings" },
};
export const earlierField = (name: string) => (Object.hasOwn(earlierFields, name) ? earlierFields[name] : undefined);

/** What is wrong in the set-up, by its fields: it is asked as the step is left, where it can still be put right. */
export function setUpProblems(draft: DeviceDraft, sign: DecimalSign): FieldProblems {
  const read = sendable(draft, sign);
  if (!("problems" in read)) return {};
  return Object.fromEntries(Object.entries(read.problems).filter(([name]) => earlierField(name)?.step === "set-up"));
}

/** What the sheet sends, or what is missing, by its fields. */
export function sendable(
  draft: DeviceDraft,
  sign: DecimalSign,
): { readonly test: TestDraft } | { readonly problems: FieldProblems } {
  const { fields } = draft;
  const problems: Record<string, string> = {};
  const signOf = (name: FieldName) => (name === "orificeMm" ? boreSign : sign);
  const isLeakDown = draft.test === "leak-down";
  for (const name of isLeakDown ? (["meter", "supply", "orificeMm"] as const) : (["meter", "crankingRpm"] as const)) {
    const problem = problemOf(fields[name], signOf(name));
    if (problem !== null) problems[name] = problem;
  }
  const meter = figureIn(fields.meter, sign);
  if (meter === null) problems["meter"] ??= "Write what the meter reads.";
  if (isLeakDown && draft.valueUnit !== "%" && fields.supply.trim() === "") {
    problems["supply"] = "A held pressure needs the supply that it was held of.";
  }
  for (const { id } of stopsOf(draft.test, draft.setUp)) problems[id] = answerAnew;
  if (fields.date === "") problems["date"] = "Choose the day of the test.";
  if (draft.readings.length === 0) problems["readings"] = "No cylinder is measured yet.";
  const waiting = notKeptWords(draft);
  if (waiting !== null) problems["typing"] = waiting;
  const { supply, orificeMm } = termsOf(draft, sign);
  const parsed = testDraftSchema.safeParse({
    ...draft,
    date: fields.date,
    meter,
    supply,
    orificeMm,
    crankingRpm: isLeakDown ? null : figureIn(fields.crankingRpm, sign),
    instrument: fields.instrument.trim() || null,
    testedBy: fields.testedBy.trim() || null,
    remarks: fields.remarks.trim() || null,
  });
  if (parsed.success && Object.keys(problems).length === 0) return { test: parsed.data };
  const unfit = (parsed.error?.issues ?? [])
    .toReversed()
    .map(({ path, message }) => [String(path[0]), `${message}.`] as const);
  // What was said of a field in this page's own words goes before.
  return { problems: { ...Object.fromEntries(unfit), ...problems } };
}
