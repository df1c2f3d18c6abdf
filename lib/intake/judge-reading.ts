import type { RowIssue } from "../schema/intake.ts";
import type { Measure, Place, ValueUnit } from "../schema/words.ts";
import { toKpa } from "../units.ts";
import { words } from "./words.ts";

/** What a rule finds: in which column of the contract, and why. */
export interface Finding {
  readonly severity: RowIssue["severity"];
  readonly code: string;
  readonly column: string;
  readonly why: string;
}

/** No tester or engine of this trade reaches it; a higher figure is another unit or a slip. */
const highestKpa = 10_000;

/** A reading as far as its cells could be read; `undefined`: could not. */
export interface LooseReading {
  readonly test: Measure | undefined;
  readonly valueUnit: ValueUnit | undefined;
  readonly supply: number | null | undefined;
  readonly firstStroke: number | null | undefined;
  readonly orificeMm: number | null | undefined;
}

const refused = (code: string, column: string, why: string): Finding => ({ severity: "refused", code, column, why });

/** What is wrong with a pressure, whatever it is the pressure of. */
function pressureFinding(value: number, unit: Exclude<ValueUnit, "%">, column: string): Finding | null {
  if (value < 0) return refused("pressure-negative", column, words.pressureNegative(value, unit));
  if (toKpa(value, unit) > highestKpa) return refused("pressure-too-high", column, words.pressureTooHigh(value, unit));
  return null;
}

/** Narrower than any restrictor in mm, and what a bore of 0.25 to 5 mm has in inches. */
const inchesBelow = 0.2;
/** Leak-down testers of all sizes lie within, mm. */
const usualBore = { least: 0.4, most: 3.5 } as const;

/** What is amiss with a restrictor's bore. In inches it would make any engine look sound, for hardly any air came by. */
export function judgeBore(bore: number, column: string): Finding | null {
  if (bore < inchesBelow) return refused("bore-in-inches", column, words.boreInInches(bore));
  if (bore >= usualBore.least && bore <= usualBore.most) return null;
  return { severity: "warning", code: "bore-unusual", column, why: words.boreUnusual(bore, usualBore) };
}

const nothing: readonly Finding[] = [];

/** The rules that hold for a row's test, unit and supply, whatever its readings. */
export function judgeMeasure({ test, valueUnit, supply, firstStroke, orificeMm }: LooseReading): readonly Finding[] {
  if (test === undefined || valueUnit === undefined) return nothing;
  const leakDown = test === "leak-down";
  if (!leakDown && valueUnit === "%") {
    return [refused("percent-for-compression", "value_unit", words.percentForCompression)];
  }
  if (leakDown && valueUnit !== "%" && supply === null) {
    return [refused("supply-needed", "supply", words.supplyNeeded)];
  }
  const hasBore = leakDown && orificeMm !== null && orificeMm !== undefined;
  if (supply === null && firstStroke === null && !hasBore) return nothing;
  const pressureUnit = valueUnit === "%" ? "kPa" : valueUnit;
  const findings = [
    supply === undefined || supply === null ? null : pressureFinding(supply, pressureUnit, "supply"),
    firstStroke === undefined || firstStroke === null
      ? null
      : pressureFinding(firstStroke, pressureUnit, "first_stroke"),
    hasBore ? judgeBore(orificeMm, "orifice_mm") : null,
  ].filter((finding) => finding !== null);
  return findings.length === 0 ? nothing : findings;
}

/** The rules that hold for one reading; `column` is that of its value. */
export function judgeValue(value: number, reading: LooseReading, column: string): Finding | null {
  const { test, valueUnit, supply } = reading;
  if (test === undefined || valueUnit === undefined) return null;
  if (valueUnit === "%") {
    if (test !== "leak-down" || (value >= 0 && value <= 100)) return null;
    return refused("leakage-outside", column, words.leakageOutside(value));
  }
  const finding = pressureFinding(value, valueUnit, column);
  if (finding !== null || test !== "leak-down" || supply === undefined || supply === null || value <= supply)
    return finding;
  return refused("held-above-supply", column, words.heldAboveSupply(value, supply, valueUnit));
}

/** Air heard in a compression test says nothing: it is told of and not taken over. */
export function judgeHeard(
  heard: readonly Place[] | undefined,
  test: Measure | undefined,
  column: string,
): Finding | null {
  if (heard === undefined || heard.length === 0 || test === undefined || test === "leak-down") return null;
  return { severity: "warning", code: "heard-in-compression", column, why: words.heardAtCompression };
}
