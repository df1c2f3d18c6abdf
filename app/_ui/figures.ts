const spaces = "[ \\u00a0\\u2009\\u202f]";
const grouped = {
  spaces: new RegExp(`^\\d{1,3}(${spaces}\\d{3})+([.,]\\d+)?$`),
  commas: /^(\d{1,3}(,\d{3}){2,}|\d{1,3}(,\d{3})+\.\d+)$/,
  points: /^(\d{1,3}(\.\d{3}){2,}|\d{1,3}(\.\d{3})+,\d+)$/,
} as const;
const plain = /^(\d+[.,]?\d*|[.,]\d+)$/;
/** As a form prints a very small or very large figure into its field. */
const powerOfTen = /^\d+(\.\d+)?e[+-]?\d+$/;

/** The sign that a viewer's numbers have before their decimals; forms print figures with a point for everybody. */
export type DecimalSign = "." | ",";

/** The decimal sign of a choice of number format, by its name: "point-comma" groups by points. */
export const decimalSignOf = (numbers: string): DecimalSign => (numbers.endsWith("-comma") ? "," : ".");

/**
 * One to three digits, a sign, three digits: "1,400" is 1400 to one reader and 1.4 to another. The viewer's own decimal
 * sign is taken for one, but where the digits end in 0: nobody writes decimals so, and forms print none ("1.016").
 */
const twoReadings: Readonly<Record<DecimalSign, RegExp>> = {
  ".": /^[1-9]\d{0,2}(,\d{3}|\.\d{2}0)$/,
  ",": /^[1-9]\d{0,2}(\.\d{3}|,\d{2}0)$/,
};

/**
 * A figure as people type it, with a comma or a point for decimals, and with points, commas or spaces between thousands
 * where it can only be read in one way. Blank: null. NaN: no figure, or one of two readings (see `figureProblem`).
 * `sign`: the viewer's; a point for what a form printed.
 */
export function figureOf(text: string, sign: DecimalSign = "."): number | null {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  const factor = /^[-−]/.test(trimmed) ? -1 : 1;
  const digits = trimmed.replace(/^[-−+]/, "");
  return twoReadings[sign].test(digits) ? Number.NaN : factor * readingOf(digits);
}

function readingOf(digits: string): number {
  if (plain.test(digits)) return Number(digits.replace(",", "."));
  if (powerOfTen.test(digits)) return Number(digits);
  if (grouped.spaces.test(digits)) return Number(digits.replace(new RegExp(spaces, "g"), "").replace(",", "."));
  if (grouped.commas.test(digits)) return Number(digits.replaceAll(",", ""));
  if (grouped.points.test(digits)) return Number(digits.replaceAll(".", "").replace(",", "."));
  return Number.NaN;
}

/** Why a figure of two readings is not taken, and what to write instead; null: it is not such a one. */
export function figureProblem(text: string, sign: DecimalSign = "."): string | null {
  const trimmed = text.trim().replace("−", "-");
  if (!twoReadings[sign].test(trimmed.replace(/^[-+]/, ""))) return null;
  const whole = trimmed.replace(/[.,]/, "");
  const decimal = trimmed.replace(/[.,]/, sign).replace(/0+$/, "").replace(/[.,]$/, "");
  return `“${text.trim()}” may be read as ${whole} or as ${decimal}: write ${whole} or ${decimal}.`;
}
