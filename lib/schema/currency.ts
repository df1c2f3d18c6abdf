/** The code of ISO 4217 that names no currency. */
export const noCurrency = "XXX";

/** Digits of a currency's minor unit: 2 for cents, 0 for yen, 3 for fils (ISO 4217). */
export function minorDigits(currency: string): number {
  const { maximumFractionDigits: digits } = new Intl.NumberFormat("en", {
    style: "currency",
    currency,
  }).resolvedOptions();
  return digits ?? 2;
}
