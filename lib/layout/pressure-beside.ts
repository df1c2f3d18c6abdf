import type { ValueUnit } from "../schema/words.ts";
import { fromKpa, toKpa } from "../units.ts";

/**
 * A supply or first stroke in the unit in which the contract wants it: that of the reading, or kPa beside a leakage in %.
 * `from`: the unit it was told in; null: that of the reading. Converted figures have 2 decimals. null: beside a leakage
 * nothing tells the unit.
 */
export function pressureBeside(text: string, from: ValueUnit | null, reading: ValueUnit | null): string | null {
  if (reading === "%" && from === null) return null;
  const to = reading === "%" ? "kPa" : reading;
  const value = Number(text);
  // What is no number, or has no unit to convert to, is intake's to refuse.
  if (from === null || from === "%" || to === null || from === to || !Number.isFinite(value)) return text;
  return String(Number(fromKpa(toKpa(value, from), to).toFixed(2)));
}
