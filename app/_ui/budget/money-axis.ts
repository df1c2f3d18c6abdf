import { minorDigits } from "../../../lib/schema/currency.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { roundStep } from "../unit/axis.ts";

/** An axis of money from nought, in minor units, with ticks that are round in whole units. */
export interface MoneyAxis {
  readonly end: number;
  readonly ticks: readonly { readonly amount: number; readonly words: string }[];
  /** Place from the foot, in per cent. */
  readonly at: (amount: number) => number;
}

export function moneyAxis(f: Formats, most: number, currency: string): MoneyAxis {
  const minor = 10 ** minorDigits(currency);
  const step = roundStep(Math.max(1, most / minor), 4);
  const count = Math.max(1, Math.ceil(most / minor / step - 1e-9));
  const end = count * step * minor;
  return {
    end,
    ticks: Array.from({ length: count + 1 }, (_, i) => ({ amount: i * step * minor, words: f.number(i * step) })),
    at: (amount) => (100 * amount) / end,
  };
}
