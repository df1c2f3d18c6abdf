import { minorDigits } from "../../../lib/schema/currency.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";

/** An amount of minor units in whole units of its currency: a budget tells no cents beside thousands. */
export function wholeMoney(f: Formats, amount: number, currency: string): string {
  const minor = 10 ** minorDigits(currency);
  // Without the sign of a nought.
  return f.money(Math.round(amount / minor) * minor || 0, currency);
}
