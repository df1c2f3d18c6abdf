import { unitOf } from "../../../lib/assessment/rounding.ts";
import type { Measure, Place } from "../../../lib/schema/words.ts";
import type { CylinderFacts, LastReading } from "../../../lib/test-entry/sheet-facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { placeWords } from "../unit/unit-words.ts";

/** Where air may be heard, as a mechanic taps it. */
export const heardWords = (place: Place): string => sentenceWords(placeWords[place]);

/** "1,150 kPa on 3 May 2026" */
function lastWords({ date, level, used }: LastReading, test: Measure, f: Formats): string {
  return `${f.level(level, unitOf(test))} on ${f.date(date)}${used ? "" : " (kept, not used)"}`;
}

/** What the cylinder read before, and its limit, in a line. */
export function cylinderWords({ last, limit }: CylinderFacts, test: Measure, f: Formats): string {
  const before =
    last.length === 0 ? "Not measured before" : `Last ${last.map((one) => lastWords(one, test, f)).join("; ")}`;
  return `${before}. ${limit === null ? "No limit set." : `Limit ${f.level(limit, unitOf(test))}.`}`;
}
