import type { Measure, ValueUnit } from "../schema/words.ts";
import { toKpa } from "../units.ts";
import { type MeasureFacts, onTester } from "./sheet-facts.ts";

/** One reading as it is about to be kept, in the unit of its sheet. */
export interface Entry {
  readonly cylinder: number;
  readonly value: number;
  readonly firstStroke: number | null;
}

/** What holds for all readings of a sheet. */
export interface EntryTerms {
  readonly test: Measure;
  readonly valueUnit: ValueUnit;
  /** In `valueUnit` for a held pressure, in kPa with `%`; null: not told. */
  readonly supply: number | null;
  readonly orificeMm: number | null;
}

/** A reading in its measure's own unit: kPa, or % of leakage. null: a held pressure without its supply tells none. */
export function levelOf(value: number, { test, valueUnit, supply }: EntryTerms): number | null {
  if (test !== "leak-down") return valueUnit === "%" ? null : toKpa(value, valueUnit);
  if (valueUnit === "%") return value;
  return supply === null || supply <= 0 ? null : 100 * (1 - value / supply);
}

const supplyKpaOf = ({ valueUnit, supply }: EntryTerms): number | null =>
  supply === null ? null : valueUnit === "%" ? supply : toKpa(supply, valueUnit);

/** The level that a cylinder is expected at, and its limit, both on the tester in use. */
export interface Expected {
  /** Of the newest test that is used; null: there is none. */
  readonly last: number | null;
  readonly limit: number | null;
}

export function expectedOf(cylinder: number, facts: MeasureFacts, terms: EntryTerms): Expected {
  const of = facts.byCylinder.find((each) => each.cylinder === cylinder);
  const here = (level: number | null | undefined) => (level == null ? null : levelHere(level, facts, terms));
  return { last: here(of?.last.find(({ used }) => used)?.level), limit: here(of?.limit) };
}

/** A level of the usual tester as the tester in use shows it; a compression stands as it is. */
export function levelHere(level: number, { tester }: Pick<MeasureFacts, "tester">, terms: EntryTerms): number {
  const [orificeMm, supplyKpa] = [terms.orificeMm, supplyKpaOf(terms)];
  const isPossible = (figure: number | null) => figure === null || figure > 0;
  if (tester === null || !isPossible(orificeMm) || !isPossible(supplyKpa) || level < 0 || level > 100) return level;
  return onTester(level, tester, { orificeMm, supplyKpa });
}

/**
 * What the cylinder holds at a leakage, in the unit of the sheet, and of what supply, with the decimals that such a gauge is
 * read to; null: the sheet reads no held pressure, or has no supply.
 */
export function heldAt(level: number, { test, valueUnit, supply }: EntryTerms) {
  if (test !== "leak-down" || valueUnit === "%" || supply === null || supply <= 0) return null;
  return { held: supply * (1 - level / 100), supply, decimals: supply < 20 ? 1 : 0 };
}
