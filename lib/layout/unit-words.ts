import type { MeterUnit, ValueUnit } from "../schema/words.ts";

/** Units as workshops write them, in headings (`Cyl 3 (psi)`), in cells (`175psi`) and in title blocks. */

const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/²/g, "2")
    .replace(/[\s.^_-]/g, "");

const valueUnitWords: Record<ValueUnit, readonly string[]> = {
  kPa: ["kpa", "kpag", "kilopascal", "kilopascals"],
  bar: ["bar", "bars", "barg"],
  psi: ["psi", "psig", "lb/in2", "lbs/in2", "lbf/in2", "lb/sqin", "lbspersqin", "lbs", "psis"],
  "kgf/cm2": ["kgf/cm2", "kg/cm2", "kgfcm2", "kgcm2", "kgf/sqcm", "kg/sqcm", "kp/cm2"],
  "%": ["%", "pct", "percent", "percentage"],
};
const meterUnitWords: Record<MeterUnit, readonly string[]> = {
  h: ["h", "hr", "hrs", "hour", "hours"],
  km: ["km", "kms", "kilometer", "kilometers", "kilometre", "kilometres"],
  mi: ["mi", "mile", "miles"],
};
/** Units that a heading may carry and the contract does not read: what stands under them is never taken for another. */
const foreign = new Set([
  "mpa",
  "hpa",
  "mbar",
  "atm",
  "torr",
  "mmhg",
  "inhg",
  "pa",
  "in",
  "inch",
  "inches",
  "ft",
  "feet",
  "mm",
  "m",
  "cm",
  "°c",
  "c",
  "°f",
  "f",
  "rpm",
  "1/min",
  "l/min",
  "cc",
  "ml",
  "nm",
  "s",
  "sec",
  "min",
  "m/s",
  "kg",
  "hp",
  "kw",
  "v",
]);

/** No figure with its unit is longer; what is, is not looked at letter by letter. */
const longestFigure = 64;

const byWord = <U extends string>(words: Record<U, readonly string[]>) =>
  new Map((Object.keys(words) as U[]).flatMap((unit) => words[unit].map((word) => [word, unit] as const)));
const valueUnits = byWord(valueUnitWords);
const meterUnits = byWord(meterUnitWords);

/** The unit that a text is, whatever its case, dots and blanks; null: none that the contract reads. */
export const valueUnitOf = (text: string): ValueUnit | null => valueUnits.get(plain(text)) ?? null;
export const meterUnitOf = (text: string): MeterUnit | null => meterUnits.get(plain(text)) ?? null;
/** Whether a text is a unit of any kind, also of one that the contract does not read. */
export const isUnit = (text: string): boolean =>
  valueUnitOf(text) !== null || meterUnitOf(text) !== null || foreign.has(plain(text));

/** A number with its unit behind it (`175psi`, `12 %`, `4.180 h`), or alone. `unit` is as written; empty: none. */
export function splitUnit(text: string): { readonly figure: string; readonly unit: string } {
  if (text.length > longestFigure) return { figure: text, unit: "" };
  const parts = /^(.*?\d[.,]?)\s*([^\d\s.,/][^\d]*(?:cm2|in2)?)$/i.exec(text.trim());
  return parts === null
    ? { figure: text.trim(), unit: "" }
    : { figure: parts[1] as string, unit: (parts[2] as string).trim() };
}

/** The one unit of pressure or leakage that a sentence names ("All readings in psi"); null: none, or several. */
export function valueUnitIn(sentence: string): ValueUnit | null {
  const words = sentence.split(/[\s,;:()[\]=]+/).filter((word) => word !== "");
  const found = new Set(words.map(valueUnitOf).filter((unit) => unit !== null));
  const [unit] = found;
  return unit !== undefined && found.size === 1 ? unit : null;
}
