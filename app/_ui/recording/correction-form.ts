import { judgeBore, judgeMeasure, judgeValue } from "../../../lib/intake/judge-reading.ts";
import type { ReadingFact, TestFact } from "../../../lib/schema/facts.ts";
import { places } from "../../../lib/schema/words.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { printed } from "./choices.ts";
import type { CorrectionFields, ReadingFields } from "./correction-fields.ts";
import { fieldReader, most, type ReadRecord, type RecordContext } from "./fields.ts";

/** As the files have them (lib/schema/rows.ts). */
const ranges = {
  percent: { most: 100 },
  pressure: { most: 1_500_000 },
  orificeMm: { least: 0.01, most: 25 },
  crankingRpm: { least: 1, most: 3_000 },
  altitudeM: { least: -500, most: 9_000 },
  barometerKpa: { least: 30, most: 110 },
} as const;
type Range = { readonly least?: number; readonly most: number };

/** A test as a form tells it again: each of its readings with the cylinder that it stood beside before. */
export interface CorrectedTest {
  readonly test: TestFact;
  /** By the places of its readings. */
  readonly stoodBeside: readonly number[];
  readonly reason: string;
}

/** Empty cells that an import names by column, beside the fields of this form. */
const fieldOf: Readonly<Record<string, string>> = {
  value: "value",
  value_unit: "valueUnit",
  supply: "supply",
  first_stroke: "firstStroke",
};

/**
 * The test with what is corrected, or why each field is not taken; `test` as it stands, without what was withdrawn. A field
 * that stands as it was printed is read as it was printed, with a point for everybody. What a kind of test does not have goes
 * where the kind is corrected.
 */
export function readCorrection(
  fields: CorrectionFields,
  test: TestFact,
  context: RecordContext,
): ReadRecord<CorrectedTest> {
  const read = fieldReader(context);
  const optional = (field: string, text: string, before: number | null, range: Range): number | null =>
    before !== null && text === printed(before) ? before : read.figure(field, text, range);
  const needed = (field: string, text: string, before: number, range: Range, why: string): number =>
    text === printed(before) ? before : (read.figure(field, text, { ...range, needed: why }) ?? before);
  const whole = (field: string, text: string, before: number, why: string): number => {
    const figure = needed(field, text, before, { most: 1_000 }, why);
    if (Number.isInteger(figure) && figure >= 1) return figure;
    read.refuse(field, "A whole number from 1.");
    return before;
  };
  const isLeakDown = fields.asTest === "leak-down";
  // A field that this kind of test does not have is not shown, so nobody can have meant to change it.
  const hidden = <T>(before: T, none: T): T => (fields.asTest === test.test ? before : none);
  const unit = read.text("asUnit", fields.asUnit);
  if (unit === null) read.refuse("asUnit", "Name the unit that was tested.");
  const isOtherUnit = unit !== test.unit;

  const readings = test.readings.map((before, place): ReadingFact => {
    const given = fields.readings[place];
    if (given === undefined) return before;
    const at = (name: keyof ReadingFields) => `readings.${place}.${name}`;
    const isPercent = given.valueUnit === "%";
    const pressure = (name: "supply" | "firstStroke") => optional(at(name), given[name], before[name], ranges.pressure);
    const cylinder = whole(at("cylinder"), given.cylinder, before.cylinder, "Which cylinder is it?");
    if (!isOtherUnit && cylinder > context.cylinders)
      read.refuse(at("cylinder"), `The engine has ${context.cylinders} cylinders.`);
    const order = given.order.trim() === "" ? null : whole(at("order"), given.order, before.order ?? 1, "");
    return {
      ...before,
      cylinder,
      value: needed(
        at("value"),
        given.value,
        before.value,
        isPercent ? ranges.percent : ranges.pressure,
        "Give the reading. One that was not made is set aside, not blanked.",
      ),
      valueUnit: given.valueUnit,
      supply: isLeakDown ? pressure("supply") : hidden(before.supply, null),
      firstStroke: isLeakDown ? hidden(before.firstStroke, null) : pressure("firstStroke"),
      heardAt: isLeakDown ? places.filter((each) => given.heardAt.includes(each)) : hidden(before.heardAt, []),
      order,
      remarks: oneLine(read.text(at("remarks"), given.remarks)),
    };
  });
  refuseTwice(readings, read.refuse);

  const ofTest = (name: "orificeMm" | "crankingRpm" | "altitudeM" | "barometerKpa") =>
    optional(name, fields[name], test[name], ranges[name]);
  const answer = (told: "" | "yes" | "no") => (told === "" ? null : told === "yes");
  const date = read.date("asDate", fields.asDate);
  const corrected: TestFact = {
    ...test,
    unit: unit ?? test.unit,
    date,
    test: fields.asTest,
    attempt: whole("asAttempt", fields.asAttempt, test.attempt, "Which test of that day is it?"),
    instrument: oneLine(read.text("asInstrument", fields.asInstrument)),
    meter: needed("meter", fields.meter, test.meter, { most: most.meter }, "Give what the meter showed."),
    meterUnit: fields.meterUnit,
    depot: oneLine(read.text("depot", fields.depot)),
    engineSerial: oneLine(read.text("engineSerial", fields.engineSerial)),
    // Of another unit nobody said here what engine it has.
    engineModel: isOtherUnit ? null : test.engineModel,
    testedBy: oneLine(read.text("testedBy", fields.testedBy)),
    orificeMm: isLeakDown ? ofTest("orificeMm") : hidden(test.orificeMm, null),
    crankingRpm: isLeakDown ? hidden(test.crankingRpm, null) : ofTest("crankingRpm"),
    altitudeM: ofTest("altitudeM"),
    barometerKpa: ofTest("barometerKpa"),
    warm: answer(fields.warm),
    throttleOpen: answer(fields.throttleOpen),
    allPlugsOut: answer(fields.allPlugsOut),
    tdcConfirmed: answer(fields.tdcConfirmed),
    gaugeZeroed: answer(fields.gaugeZeroed),
    readings: readings.toSorted((a, b) => a.cylinder - b.cylinder),
  };
  judge(corrected.test, { ...corrected, readings }, read.refuse);
  if (Object.keys(read.problems).length === 0 && toldOf(corrected) === toldOf(test)) {
    read.refuse("reason", "Nothing was changed yet: correct what is wrong above.");
  }
  const reason = read.reason("reason", fields.reason, "Say why: it is kept and shown with the test.");
  return read.done(() => ({
    test: corrected,
    stoodBeside: corrected.readings.map((reading) => test.readings[readings.indexOf(reading)]?.cylinder ?? 0),
    reason,
  }));
}

type Refuse = (field: string, reason: string) => void;

function refuseTwice(readings: readonly ReadingFact[], refuse: Refuse): void {
  const seen = new Set<number>();
  for (const [place, { cylinder }] of readings.entries()) {
    if (seen.has(cylinder)) refuse(`readings.${place}.cylinder`, `Cylinder ${cylinder} stands twice.`);
    seen.add(cylinder);
  }
}

/** The rules by which the row of any file is judged, each finding beside the field that it is of. */
function judge(measure: TestFact["test"], { orificeMm, readings }: TestFact, refuse: Refuse): void {
  const bore = measure === "leak-down" && orificeMm !== null ? judgeBore(orificeMm, "orifice_mm") : null;
  if (bore?.severity === "refused") refuse("orificeMm", said(bore.why));
  for (const [place, { value, valueUnit, supply, firstStroke }] of readings.entries()) {
    const loose = { test: measure, valueUnit, supply, firstStroke, orificeMm: null };
    for (const finding of [...judgeMeasure(loose), judgeValue(value, loose, "value")]) {
      if (finding?.severity !== "refused") continue;
      refuse(`readings.${place}.${fieldOf[finding.column] ?? "value"}`, said(finding.why));
    }
  }
}

const said = (why: string): string => `${sentenceWords(why)}.`;

/** A cell of a file holds no line breaks. */
const oneLine = (text: string | null): string | null => text?.replace(/\s+/g, " ") ?? null;

/** All that a correction may change, to tell whether it does. */
const toldOf = ({ file: _file, readings, ...head }: TestFact): string =>
  JSON.stringify([head, readings.map(({ line: _line, file: _own, ...reading }) => reading)]);
