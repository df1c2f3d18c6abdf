import { daysBetween } from "../calendar.ts";
import type { MeterUnit } from "../schema/words.ts";
import { unknownAltitudeNote } from "../sealing/seal-test.ts";
import type { EngineHistory, UnitHistory } from "../sealing/types.ts";
import { median } from "../statistics/quantile.ts";
import { dateWords, meterWords } from "../wording.ts";

/**
 * More than any unit can work in a day: an hour meter cannot gain more than 24 h; a vehicle that never stops makes hardly
 * 3,000 km. Beyond it a digit or the unit of the meter is wrong.
 */
const mostADay: Readonly<Record<MeterUnit, number>> = { h: 24, km: 3000, mi: 1900 };

/** A meter that shows no use for so long, while a leak grew by so much, probably stopped counting. */
const standingDays = 180;
const grownPoints = 5;

/**
 * What a person should settle about the unit's meter, in words: it gained more than a unit can work, or it stood still
 * while the engine went on wearing. Both spoil every date that hangs on it.
 */
export function meterQuestions({ meterPoints, meterUnit, unit }: UnitHistory, history: EngineHistory): string[] {
  const questions: string[] = [];
  for (const [i, point] of meterPoints.entries()) {
    const before = meterPoints[i - 1];
    if (before === undefined) continue;
    const gained = point.cumulative - before.cumulative;
    const days = Math.max(1, daysBetween(before.date, point.date));
    if (gained / days > mostADay[meterUnit]) {
      questions.push(
        `The meter gained ${meterWords(gained, meterUnit)} between ${dateWords(before.date)} and ${dateWords(point.date)}, more than a unit can work: wrong digits or meter unit?`,
      );
    }
  }
  const tests = history.tests.filter((t) => t.measure === "leak-down" && t.unit === unit);
  const last = tests.at(-1);
  const first = tests.find((t) => t.x === last?.x);
  if (first === undefined || last === undefined || daysBetween(first.date, last.date) < standingDays) return questions;
  const level = (t: typeof last) => median(t.readings.map((r) => r.value));
  if (level(last) - level(first) >= grownPoints) {
    questions.push(
      `The meter has stood at ${meterWords(last.meter, meterUnit)} since ${dateWords(first.date)} while the leakage grew: has it stopped? A forecast needs the use.`,
    );
  }
  return questions;
}

/** That compression was read without knowing at what altitude; null: it is known for every test, or none was made. */
export function altitudeWarning({ tests }: EngineHistory): string | null {
  const unknown = tests.filter((t) => t.referral.includes(unknownAltitudeNote));
  if (unknown.length === 0) return null;
  const depots = [...new Set(unknown.flatMap((t) => (t.depot === null ? [] : [t.depot])))];
  const where = depots.length === 0 ? "" : ` (${depots.join(", ")})`;
  return `Altitude not known for ${unknown.length} compression ${unknown.length === 1 ? "test" : "tests"}${where}: read as at sea level; at 1,850 m a sound engine would read 20 % low. Give the depot's altitude`;
}
