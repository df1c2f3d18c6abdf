/** A number for a sentence: at most `digits` decimals, thousands by comma. Not Intl: this runs once for each test. */
export function inWords(value: number, digits = 3): string {
  const [whole = "", decimals] = String(Number(value.toFixed(digits))).split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return decimals === undefined ? grouped : `${grouped}.${decimals}`;
}
