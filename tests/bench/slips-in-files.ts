import type { Random } from "../../demo-data/random.ts";
import { addDays } from "../../lib/calendar.ts";
import { oddTests } from "../../lib/intake/odd-tests.ts";
import { reconcileUnit } from "../../lib/intake/reconcile-unit.ts";
import { alikeUnits } from "../../lib/intake/unit-names.ts";
import { noRows } from "../../lib/intake/unit-rows.ts";
import type { TestFact } from "../../lib/schema/facts.ts";
import { type PressureUnit, pressureUnits } from "../../lib/schema/words.ts";
import { meterFactor, toKpa } from "../../lib/units.ts";
import { type HonestUnit, modelOf } from "./slip-fleet.ts";
import type { PlantedFault } from "./slips.ts";

/** Slips in rows that come in, as intake points them out. */

const testsOf = ({ visits }: HonestUnit) => visits.flatMap(({ compression, leakDown }) => [compression, leakDown]);

/** Codes of the warnings about tests that come in beside those known. */
function told(unit: HonestUnit, fresh: readonly TestFact[], known: readonly TestFact[]): ReadonlySet<string> {
  const before = { tests: known, inServiceDate: unit.inServiceDate };
  const issues = oddTests({ tests: fresh, before, model: modelOf(unit.kind), meterUnit: unit.kind.meterUnit });
  return new Set(issues.map(({ code }) => code));
}

/** Each honest test as it comes in after those before it: both tests of a visit at once. */
export function intakeWarnings(unit: HonestUnit): readonly ReadonlySet<string>[] {
  return unit.visits.flatMap(({ compression, leakDown }, i) => {
    const known = testsOf({ ...unit, visits: unit.visits.slice(0, i) });
    const both = told(unit, [compression, leakDown], known);
    const alone = told(unit, [compression], known);
    return [alone, new Set([...both].filter((code) => !alone.has(code)))];
  });
}

/** The last scheduled visit, which lies some months after the one before it; null: it does not. */
function lastOf(unit: HonestUnit) {
  const last = unit.visits.at(-1);
  const before = unit.visits.slice(0, -1);
  const previous = before.at(-1);
  if (last === undefined || previous === undefined) return null;
  if (last.compression.date < addDays(previous.compression.date, 60)) return null;
  return { last, previous, known: testsOf({ ...unit, visits: before }) };
}
type Last = NonNullable<ReturnType<typeof lastOf>>;

/** A slip in the last visit: the tests that come in so, or null where this unit gives no occasion. */
const planted = (
  code: string,
  words: string,
  slip: (last: Last, unit: HonestUnit, random: Random) => readonly TestFact[] | null,
): PlantedFault => ({
  code,
  planted: words,
  found: (unit, random) => {
    const last = lastOf(unit);
    const fresh = last && slip(last, unit, random);
    return last === null || fresh === null ? null : told(unit, fresh, last.known).has(code);
  },
});

const withUnit = (test: TestFact, valueUnit: PressureUnit): TestFact => ({
  ...test,
  readings: test.readings.map((reading) => ({ ...reading, valueUnit })),
});
const copyOf = (test: TestFact, from: TestFact): TestFact => ({ ...test, readings: from.readings });
const reversed = (test: TestFact): TestFact => ({
  ...test,
  readings: test.readings.map((reading, i) => ({
    ...reading,
    value: test.readings[test.readings.length - 1 - i]?.value ?? reading.value,
  })),
});

/** How far the truth of an engine lies from its own mirror image at most: a share of compression, or points of leakage. */
const lopsided = (levels: readonly number[], apart: (a: number, b: number) => number) =>
  Math.max(...levels.map((level, i) => apart(level, levels[levels.length - 1 - i] as number)));
const plainly = { share: 0.1, points: 10 } as const;

/** Units that lie so far apart that no engine explains it; bar and kgf/cm2 are one on a gauge. */
function otherUnit(of: PressureUnit, random: Random): PressureUnit {
  const others = pressureUnits.filter((unit) => unit !== of && unit !== "kgf/cm2");
  return others[random.whole(0, others.length - 1)] as PressureUnit;
}

const meterOf = (test: TestFact, meter: number): TestFact => ({ ...test, meter });

export const intakeFaults: readonly PlantedFault[] = [
  planted("pressure-unit", "pressures under another unit", ({ last }, { kind }, random) => [
    withUnit(last.compression, otherUnit(kind.pressureUnit, random)),
  ]),
  {
    code: "pressure-unit",
    planted: "the same at a unit's first test",
    found: (unit, random) => {
      const [first] = unit.visits;
      if (first === undefined) return null;
      return told(unit, [withUnit(first.compression, otherUnit(unit.kind.pressureUnit, random))], []).has(
        "pressure-unit",
      );
    },
  },
  planted("copied", "compressions of the last test", ({ last, previous }) => [
    copyOf(last.compression, previous.compression),
  ]),
  planted("copied", "leakages of the last test, six cylinders and more", ({ last, previous }) =>
    last.leakDown.readings.length < 6 ? null : [copyOf(last.leakDown, previous.leakDown)],
  ),
  planted("near-repeat", "the last test once more, a day later", ({ last }) => [
    { ...last.compression, date: addDays(last.compression.date, 1) },
    last.compression,
  ]),
  planted("cylinders-reversed", "compressions from the other end, 10 % apart", ({ last }) =>
    lopsided(last.true.compression, (a, b) => Math.abs(a / b - 1)) < plainly.share
      ? null
      : [reversed(last.compression)],
  ),
  planted("cylinders-reversed", "leakages from the other end, 10 points apart", ({ last }) =>
    lopsided(last.true.leakDown, (a, b) => Math.abs(a - b)) < plainly.points ? null : [reversed(last.leakDown)],
  ),
  planted("meter-equal", "the meter of the last test", ({ last, previous }) => [
    meterOf(last.compression, previous.compression.meter),
  ]),
  planted("meter-jump", "km on a meter in miles", ({ last }, { kind }) =>
    kind.meterUnit === "mi"
      ? [meterOf(last.compression, Math.round(last.compression.meter * (meterFactor("mi", "km") ?? 1)))]
      : null,
  ),
  {
    code: "meter-backwards",
    planted: "miles on a meter in km",
    found: (unit) => {
      const last = lastOf(unit);
      if (last === null || unit.kind.meterUnit !== "km") return null;
      const wrong = meterOf(
        last.last.compression,
        Math.round(last.last.compression.meter * (meterFactor("km", "mi") ?? 1)),
      );
      const rows = { ...noRows(unit.unit), tests: [...last.known, wrong] };
      const { issues } = reconcileUnit(rows, null, new Map([[unit.kind.model, modelOf(unit.kind)]]));
      return issues.some(({ severity, column }) => severity === "refused" && column === "meter");
    },
  },
  planted("meter-fast", "a figure too many on the meter", ({ last }) => [
    meterOf(last.compression, 10 * last.compression.meter + 7),
  ]),
  planted("too-low", "pressures written in MPa", ({ last }) => [
    {
      ...last.compression,
      readings: last.compression.readings.map((reading) => ({
        ...reading,
        value: toKpa(reading.value, reading.valueUnit as PressureUnit) / 1000,
      })),
    },
  ]),
  planted("held-as-lost", "what was held, told as what was lost", ({ last }) => [
    {
      ...last.leakDown,
      readings: last.leakDown.readings.map((reading) => ({ ...reading, value: 100 - reading.value })),
    },
  ]),
  planted("same-day-repeat", "a test of the day once more, without its instrument", ({ last }) => [
    { ...last.compression, instrument: "G-1" },
    { ...last.compression, instrument: null },
  ]),
  planted("same-day-other", "a test of the day once more with other readings, without its instrument", ({ last }) => [
    { ...last.compression, instrument: "G-1" },
    {
      ...last.compression,
      instrument: null,
      readings: last.compression.readings.map((reading) => ({ ...reading, value: 0.9 * reading.value })),
    },
  ]),
  planted("decimal-slip", "one pressure a thousand times too low", ({ last }) => [
    {
      ...last.compression,
      readings: last.compression.readings.map((reading, i) =>
        i === 0 ? { ...reading, value: reading.value / 1000 } : reading,
      ),
    },
  ]),
  planted("decimal-slip", "one leakage as a share of 1", ({ last }) => [
    {
      ...last.leakDown,
      readings: last.leakDown.readings.map((reading, i) =>
        i === 0 ? { ...reading, value: reading.value / 100 } : reading,
      ),
    },
  ]),
  planted("before-first-day", "a year ten too low", ({ last }) => [
    { ...last.compression, date: `${Number(last.compression.date.slice(0, 4)) - 10}${last.compression.date.slice(4)}` },
  ]),
  {
    code: "unit-alike",
    planted: "a fleet number with a blank, a capital, a nought",
    found: ({ unit }, random) => {
      const slips = [unit.toLowerCase(), unit.replace("-", " "), unit.replace("-", "-0"), unit.replace("0", "O")];
      const wrong = slips[random.whole(0, slips.length - 1)] as string;
      return wrong === unit ? null : alikeUnits([wrong], new Set([unit]))(wrong) !== null;
    },
  },
];
