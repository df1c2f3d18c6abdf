import type { Random } from "../../demo-data/random.ts";
import type { TestFact } from "../../lib/schema/facts.ts";
import { type PressureUnit, pressureUnits } from "../../lib/schema/words.ts";
import type { Entry, EntryTerms } from "../../lib/test-entry/entry.ts";
import { judgeEntry } from "../../lib/test-entry/judge-entry.ts";
import type { MeasureFacts } from "../../lib/test-entry/sheet-facts.ts";
import { fromKpa, toKpa } from "../../lib/units.ts";
import { type HonestUnit, modelOf, type Visit } from "./slip-fleet.ts";
import type { PlantedFault } from "./slips.ts";

/** Slips in readings at the engine, as the test sheet asks about them before they are kept. */

type Side = "compression" | "leakDown";

function termsOf(test: TestFact): EntryTerms {
  const valueUnit = test.readings[0]?.valueUnit ?? "%";
  return { test: test.test, valueUnit, supply: valueUnit === "%" ? 550 : null, orificeMm: null };
}

/** What the sheet knows: near sea level, on the model's own tester, so that levels stand as they were read. */
function factsOf({ kind }: HonestUnit, last: TestFact | null, test: TestFact): MeasureFacts {
  const { cylinders, compression } = modelOf(kind);
  return {
    test: test.test,
    newKpa: test.test === "leak-down" ? null : (compression?.newKpa ?? null),
    tester: null,
    lastHeld: null,
    instruments: [],
    byCylinder: Array.from({ length: cylinders }, (_, i) => {
      const reading = last?.readings.find(({ cylinder }) => cylinder === i + 1);
      if (last === null || reading === undefined) return { cylinder: i + 1, limit: null, last: [] };
      const { value, valueUnit } = reading;
      const level = valueUnit === "%" ? value : toKpa(value, valueUnit);
      return { cylinder: i + 1, limit: null, last: [{ date: last.date, level, value, valueUnit, used: true }] };
    }),
  };
}

/** Codes that are told while the readings of a test are entered one after the other. */
function told(unit: HonestUnit, test: TestFact, last: TestFact | null): ReadonlySet<string> {
  const facts = factsOf(unit, last, test);
  const terms = termsOf(test);
  const before: Entry[] = [];
  const codes = new Set<string>();
  for (const { cylinder, value, firstStroke } of test.readings) {
    const entry = { cylinder, value, firstStroke };
    for (const { code } of judgeEntry(entry, { terms, facts, before })) codes.add(code);
    before.push(entry);
  }
  return codes;
}

/** Points of leakage by which no cylinder wears from one test to the next: its valve burns, and a question is no false alarm. */
const realChange = 6;

/** Each honest test of an engine that has not truly changed since the one before, as it is entered. */
export function entryFindings(unit: HonestUnit): readonly ReadonlySet<string>[] {
  return unit.visits.flatMap((visit, i) => {
    const last = unit.visits[i - 1] ?? null;
    const before = last?.true.leakDown ?? visit.true.leakDown;
    if (visit.true.leakDown.some((level, c) => level - (before[c] ?? level) > realChange)) return [];
    return [
      told(unit, visit.compression, last?.compression ?? null),
      told(unit, visit.leakDown, last?.leakDown ?? null),
    ];
  });
}

/**
 * Readings of the last visit with a slip. Of several `codes` the first is the one meant; any of them finds it, for each asks to
 * measure again. `withLast`: whether the sheet knows the test before.
 */
const planted = (
  codes: string | readonly string[],
  words: string,
  side: Side,
  slip: (visit: Visit, unit: HonestUnit, random: Random, last: Visit) => TestFact | null,
  withLast = true,
): PlantedFault => ({
  code: [codes].flat()[0] as string,
  planted: words,
  found: (unit, random) => {
    const [last, visit] = unit.visits.slice(-2);
    if (last === undefined || visit === undefined) return null;
    const test = slip(visit, unit, random, last);
    if (test === null) return null;
    const findings = told(unit, test, withLast ? last[side] : null);
    return [codes].flat().some((code) => findings.has(code));
  },
});

/** One cylinder of a test reads otherwise. */
function oneCylinder(test: TestFact, random: Random, otherwise: (value: number) => number): TestFact {
  const at = random.whole(0, test.readings.length - 1);
  return {
    ...test,
    readings: test.readings.map((reading, i) => (i === at ? { ...reading, value: otherwise(reading.value) } : reading)),
  };
}
const every = (test: TestFact, otherwise: (value: number) => number): TestFact => ({
  ...test,
  readings: test.readings.map((reading) => ({ ...reading, value: otherwise(reading.value) })),
});

/** The figure that a gauge in another unit shows, entered as if it were in the sheet's. */
function onOtherGauge(test: TestFact, unit: PressureUnit, random: Random): TestFact {
  // On a gauge marked in bar a figure in kgf/cm2 is 2 % off, which nobody can see.
  const others = pressureUnits.filter((other) => other !== unit && other !== "kgf/cm2");
  const other = others[random.whole(0, others.length - 1)] as PressureUnit;
  const kpa = (value: number) => toKpa(value, unit) as ReturnType<typeof toKpa>;
  return every(test, (value) => Number(fromKpa(kpa(value), other).toFixed(1)));
}

export const entryFaults: readonly PlantedFault[] = [
  planted("far", "an adaptor that leaks: one cylinder 30 to 60 % low", "compression", ({ compression }, _, random) =>
    oneCylinder(compression, random, (value) => value * random.between(0.4, 0.7)),
  ),
  planted(
    ["far", "other-unit"],
    "a particle under a valve: one cylinder 40 to 85 %",
    "leakDown",
    ({ leakDown }, _, random) => oneCylinder(leakDown, random, () => random.whole(40, 85)),
  ),
  planted("other-unit", "a gauge in another unit", "compression", ({ compression }, { kind }, random) =>
    onOtherGauge(compression, kind.pressureUnit, random),
  ),
  planted("other-unit", "the pressure held of 80 for the loss", "leakDown", ({ leakDown }) =>
    every(leakDown, (value) => Math.round(80 * (1 - value / 100))),
  ),
  planted("not-at-top", "a valve open: one cylinder 92 to 99 %", "leakDown", ({ leakDown }, _, random) =>
    oneCylinder(leakDown, random, () => random.whole(92, 99)),
  ),
  planted("no-loss", "the gauge shows no loss at all", "leakDown", ({ leakDown }) => every(leakDown, () => 0)),
  planted(
    ["above-others", "far"],
    "oil or carbon: one cylinder 15 to 30 % high",
    "compression",
    ({ compression }, _, random) => oneCylinder(compression, random, (value) => value * random.between(1.15, 1.3)),
  ),
  planted(
    "above-new",
    "a first test, all 30 % above new",
    "compression",
    ({ compression }, { kind }) => {
      const level = fromKpa((modelOf(kind).compression?.newKpa ?? 0) as ReturnType<typeof toKpa>, kind.pressureUnit);
      return every(compression, () => 1.3 * level);
    },
    false,
  ),
  planted("first-stroke-above", "first stroke and end changed over", "compression", ({ compression }) => ({
    ...compression,
    readings: compression.readings.map((reading) => ({
      ...reading,
      value: reading.firstStroke ?? reading.value,
      firstStroke: reading.value,
    })),
  })),
  planted("copied", "compressions of the last test", "compression", ({ compression }, _, __, last) => ({
    ...compression,
    readings: last.compression.readings,
  })),
  planted("copied", "leakages of the last test, six cylinders and more", "leakDown", ({ leakDown }, _, __, last) =>
    leakDown.readings.length < 6 ? null : { ...leakDown, readings: last.leakDown.readings },
  ),
];
