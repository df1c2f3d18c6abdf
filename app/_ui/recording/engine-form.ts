import { z } from "zod";
import type { RepairFact, UnitFact } from "../../../lib/schema/facts.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { fieldReader, most, type ReadRecord, type RecordContext, readTook, tookFields, typed } from "./fields.ts";
import { unitRow } from "./status-form.ts";

/** The form of a swap: the engine that comes in, the one that goes out, and what the other unit gets where it came from one. */
export const engineFieldsSchema = z.object({
  what: z.literal("engine"),
  date: typed,
  meter: typed,
  /** Serial number of the engine that comes in. */
  serial: typed,
  /** Of the one that goes out, where no record names it yet. */
  outSerial: typed,
  from: z.enum(["store", "unit"]),
  otherUnit: typed,
  otherMeter: typed,
  /** What the other unit gets instead. */
  otherGets: z.enum(["exchanged", "another", "nothing"]),
  otherSerial: typed,
  ...tookFields,
});
export type EngineFields = z.infer<typeof engineFieldsSchema>;

/** What the records say of the engines of a unit. */
export interface EnginesKnown {
  /** The one now in it; null: nobody named it. */
  readonly serial: string | null;
  /** It never had another one, so that a name given to the unit is this engine's. */
  readonly isFirst: boolean;
}

export interface EngineContext extends RecordContext {
  readonly known: EnginesKnown;
  /** Units by name, with their engines; null: there is no such unit. */
  readonly unitOf: (unit: string) => EnginesKnown | null;
  /** The unit that has the engine now; null: none. */
  readonly fittedIn: (serial: string) => string | null;
}

interface Swap {
  readonly repairs: readonly Omit<RepairFact, "file" | "line">[];
  /** Units whose engine is named with it. */
  readonly units: readonly Omit<UnitFact, "file" | "line">[];
}

/**
 * The swap as rows: one of this unit, one of the other where the engine came out of it. Wear follows the serial number, so
 * an engine that goes from one unit to another has to have one.
 */
export function readEngine(fields: EngineFields, context: EngineContext): ReadRecord<Swap> {
  const read = fieldReader(context);
  const { unit, known } = context;
  const date = read.date("date", fields.date);
  const meter = read.figure("meter", fields.meter, { most: most.meter, needed: "Give what the meter showed." });
  const name = (field: string, text: string): string | null => {
    const given = read.text(field, text);
    if (given !== null && given.length > longestName) read.refuse(field, `At most ${longestName} letters.`);
    return given;
  };
  const serial = name("serial", fields.serial);
  const outSerial = known.serial ?? name("outSerial", fields.outSerial);
  if (serial !== null && serial === outSerial) read.refuse("serial", `This engine is in ${unit} already.`);
  if (known.serial === null && outSerial !== null && !known.isFirst) {
    read.refuse(
      "outSerial",
      "Leave this empty: the unit had several engines, and the records do not tell which this is.",
    );
  }
  const fittedIn = outSerial === null || known.serial !== null ? null : context.fittedIn(outSerial);
  if (fittedIn !== null && fittedIn !== unit) read.refuse("outSerial", `The records have this engine in ${fittedIn}.`);
  const took = readTook(fields, read);
  const swap = (of: string, at: number | null, engineSerial: string | null): Swap["repairs"][number] => ({
    unit: of,
    date,
    meter: at ?? 0,
    scope: "engine-swap",
    cylinders: "all",
    found: [],
    findings: [],
    ...(of === unit ? took : { cost: null, labourHours: null, downtimeDays: null, remarks: null }),
    engineSerial,
  });
  const own = known.serial === null && outSerial !== null ? [unitRow(unit, { engineSerial: outSerial })] : [];

  if (fields.from === "store") {
    const elsewhere = serial === null ? null : context.fittedIn(serial);
    if (elsewhere !== null && elsewhere !== unit) {
      read.refuse("serial", `The records have this engine in ${elsewhere}: choose “out of another unit”.`);
    }
    return read.done(() => ({ repairs: [swap(unit, meter, serial)], units: own }));
  }

  const other = fields.otherUnit.trim();
  const others = other === "" ? null : context.unitOf(other);
  if (other === "") read.refuse("otherUnit", "Say which unit the engine comes out of.");
  else if (other === unit) read.refuse("otherUnit", "The other unit must be another one.");
  else if (others === null) read.refuse("otherUnit", `No unit ${other} is known; write it as the Fleet page does.`);
  const otherMeter = read.figure("otherMeter", fields.otherMeter, {
    most: most.meter,
    needed: "Give what the other unit’s meter showed.",
  });
  const comesIn = serial ?? others?.serial ?? null;
  if (others !== null && comesIn === null) {
    read.refuse("serial", "Give its number: wear follows it from unit to unit, and the records do not name it.");
  } else if (others !== null && others.serial !== null && comesIn !== others.serial) {
    read.refuse("serial", `The records have the engine ${others.serial} in ${other}.`);
  } else if (others !== null && others.serial === null && !others.isFirst) {
    read.refuse(
      "otherUnit",
      `${other} had several engines, and the records do not name the one in it. Add its number to a test or a repair first.`,
    );
  }
  const otherSerial = fields.otherGets === "another" ? name("otherSerial", fields.otherSerial) : null;
  if (fields.otherGets === "another") {
    const elsewhere = otherSerial === null ? null : context.fittedIn(otherSerial);
    if (otherSerial === null) read.refuse("otherSerial", "Give the number of the engine that it got.");
    else if (otherSerial === comesIn || otherSerial === outSerial) {
      read.refuse("otherSerial", "Another engine than the two of this swap.");
    } else if (elsewhere !== null) read.refuse("otherSerial", `The records have this engine in ${elsewhere}.`);
  } else if (fields.otherGets === "exchanged" && outSerial === null) {
    read.refuse("outSerial", `Give its number: its wear goes on in ${other === "" ? "the other unit" : other}.`);
  }
  const gets = fields.otherGets === "exchanged" ? outSerial : otherSerial;
  const theirs = others?.serial === null && comesIn !== null ? [unitRow(other, { engineSerial: comesIn })] : [];
  return read.done(() => ({
    repairs: [swap(unit, meter, comesIn), swap(other, otherMeter, gets)],
    units: [...own, ...theirs],
  }));
}
