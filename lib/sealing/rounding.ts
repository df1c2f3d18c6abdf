import type { TestFact } from "../schema/facts.ts";
import { pressureUnits, type ValueUnit } from "../schema/words.ts";
import { fromKpa, toKpa } from "../units.ts";

/**
 * How finely an instrument is read: the steps that its readings lie on. Rounding to steps of s adds an error with the
 * variance s²/12 to each reading by itself (uniform within a step: Sheppard 1898), which holds where readings scatter by
 * half a step or more.
 */
interface Marks {
  /** Steps that instruments are read by, ascending. */
  readonly steps: readonly number[];
  /** Of these, what a reading is taken to be read by at the coarsest before its fellows have said more. */
  readonly usual: number;
}

/** Marks of gauges and testers: common practice, no source. */
const bars: Marks = { steps: [0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1], usual: 0.1 };
const marksOf: Readonly<Record<ValueUnit, Marks>> = {
  "%": { steps: [0.1, 0.5, 1, 2, 5, 10], usual: 1 },
  kPa: { steps: [0.1, 0.5, 1, 2, 5, 10, 20, 25, 50, 100], usual: 1 },
  psi: { steps: [0.1, 0.5, 1, 2, 5, 10], usual: 1 },
  bar: bars,
  "kgf/cm2": bars,
};

/** How much likelier the coarser of two steps must make the readings: n of them lie on one k times as wide by k⁻ⁿ. */
const evidence = 200;
/** With fewer readings nothing is told by them. */
const fewestReadings = 4;

interface Seen {
  readonly marks: Marks;
  /** Of the gauge, in the unit that is written. */
  readonly unit: number;
  /** Whether all readings lie on each of the steps. */
  readonly isOn: boolean[];
  readings: number;
  lowest: number;
  highest: number;
}

/**
 * By which step the readings of each test were read, in the unit of a reading: the coarsest usual one that all readings of
 * its instrument in these tests lie on (of a unit's tests without a named instrument: of these), where there are enough
 * of them to say so and they differ. Pressures that lie on none were perhaps read in another unit and converted since. 0:
 * finer than any usual step.
 *
 * @param tests all that may use the same instruments, of one engine
 */
export function roundingSteps(tests: readonly TestFact[]): (test: TestFact, unit: ValueUnit) => number {
  const found = stepsIn(tests, (unit) => unit);
  const isOnNone = (step: number) => step === 0;
  for (const gauge of pressureUnits) {
    if (![...found.values()].some(isOnNone)) break;
    for (const [key, step] of stepsIn(tests, () => gauge)) if (isOnNone(found.get(key) ?? 0)) found.set(key, step);
  }
  return (test, unit) => found.get(keyOf(test, unit)) ?? 0;
}

/** The steps by which readings lie as a gauge marked in another unit would show them; in the unit that they are written in. */
function stepsIn(tests: readonly TestFact[], markedIn: (unit: ValueUnit) => ValueUnit): Map<string, number> {
  const seen = new Map<string, Seen>();
  for (const test of tests) {
    for (const { value: written, valueUnit } of test.readings) {
      const gauge = markedIn(valueUnit);
      if ((gauge === "%") !== (valueUnit === "%")) continue;
      const unit = gauge === valueUnit || gauge === "%" || valueUnit === "%" ? 1 : fromKpa(toKpa(1, gauge), valueUnit);
      const value = written / unit;
      const key = keyOf(test, valueUnit);
      let of = seen.get(key);
      if (of === undefined) {
        const marks = marksOf[gauge];
        of = { marks, unit, isOn: marks.steps.map(() => true), readings: 0, lowest: value, highest: value };
        seen.set(key, of);
      }
      of.readings += 1;
      of.lowest = Math.min(of.lowest, value);
      of.highest = Math.max(of.highest, value);
      for (const [i, step] of of.marks.steps.entries()) if (of.isOn[i] && !liesOn(value, step)) of.isOn[i] = false;
    }
  }
  return new Map([...seen].map(([key, of]) => [key, of.unit * stepOf(of)]));
}

const keyOf = ({ test, unit, instrument }: TestFact, valueUnit: ValueUnit): string =>
  instrument === null ? `${test} ${valueUnit} of ${unit}` : `${test} ${valueUnit} by ${instrument}`;

function liesOn(value: number, step: number): boolean {
  const steps = value / step;
  return Math.abs(steps - Math.round(steps)) < 1e-6;
}

function stepOf({ marks: { steps, usual }, isOn, readings, lowest, highest }: Seen): number {
  let found = 0;
  for (const [i, step] of steps.entries()) {
    if (!isOn[i]) continue;
    const isShown = readings >= fewestReadings && lowest < highest && (step / found) ** readings >= evidence;
    if (step <= usual || isShown) found = step;
  }
  return found;
}

/** Standard deviation of what rounding to steps of that width adds. */
export const roundingSdOf = (step: number): number => step / Math.sqrt(12);
