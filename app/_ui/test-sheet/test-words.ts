import { unitOf } from "../../../lib/assessment/rounding.ts";
import type { Place } from "../../../lib/schema/words.ts";
import { type EntryTerms, heldAt, levelHere, levelOf } from "../../../lib/test-entry/entry.ts";
import type { CylinderFacts, LastReading, MeasureFacts } from "../../../lib/test-entry/sheet-facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { enteredDecimals, sentenceWords } from "../../../lib/wording.ts";
import { placeWords } from "../unit/unit-words.ts";

/** Where air may be heard, as a mechanic taps it. */
export const heardWords = (place: Place): string => sentenceWords(placeWords[place]);

/** What the sheet reads, and of which engine. */
interface Beside {
  readonly terms: EntryTerms;
  readonly of: MeasureFacts;
}

/** "1,150 kPa", "8 %"; where the gauge shows what the cylinder holds, "74 of 80 (8 %)". */
function levelWords(level: number, { terms, of }: Beside, f: Formats): string {
  const words = f.level(level, unitOf(terms.test));
  const held = heldAt(levelHere(level, of, terms), terms);
  if (held === null) return words;
  return `${f.number(held.held, held.decimals)} of ${f.number(held.supply, held.decimals)} (${words})`;
}

/** "1,150 kPa on 3 May 2026" */
const lastWords = ({ date, level, used }: LastReading, beside: Beside, f: Formats): string =>
  `${levelWords(level, beside, f)} on ${f.date(date)}${used ? "" : " (kept, not used)"}`;

/** What the cylinder read before, and its limit, in a line. */
export function cylinderWords({ last, limit }: CylinderFacts, beside: Beside, f: Formats): string {
  const before =
    last.length === 0 ? "Not measured before" : `Last ${last.map((one) => lastWords(one, beside, f)).join("; ")}`;
  return `${before}. ${limit === null ? "No limit set." : `Limit ${levelWords(limit, beside, f)}.`}`;
}

/** "of 80 psi: 7.5 % lost", beside a held pressure; null: the sheet reads none. */
export function lostWords(value: number | null, terms: EntryTerms, f: Formats): string | null {
  if (terms.test !== "leak-down" || terms.valueUnit === "%") return null;
  if (terms.supply === null) return "The set-up names no supply yet that it is held of.";
  const supply = `of ${f.number(terms.supply, enteredDecimals(terms.supply))} ${terms.valueUnit}`;
  const level = value === null ? null : levelOf(value, terms);
  return level === null || level < 0 ? supply : `${supply}: ${f.number(level, 1)} % lost`;
}
