const spaces = "[ \\u00a0\\u2009\\u202f]";
const grouped = {
  spaces: new RegExp(`^\\d{1,3}(${spaces}\\d{3})+([.,]\\d+)?$`),
  commas: /^(\d{1,3}(,\d{3}){2,}|\d{1,3}(,\d{3})+\.\d+)$/,
  points: /^(\d{1,3}(\.\d{3}){2,}|\d{1,3}(\.\d{3})+,\d+)$/,
} as const;
const plain = /^(\d+[.,]?\d*|[.,]\d+)$/;
/** As a form prints a very small or very large figure into its field. */
const powerOfTen = /^\d+(\.\d+)?e[+-]?\d+$/;

/**
 * One to three digits, a sign, three digits: "1,400" is 1400 to one reader and 1.4 to another. With a point that holds
 * where the digits end in 0 alone: forms print decimals with a point, and never a 0 at their end ("1.016").
 */
const twoReadings = /^[1-9]\d{0,2}(,\d{3}|\.\d{2}0)$/;

/**
 * A figure as people type it, with a comma or a point for decimals, and with points, commas or spaces between thousands
 * where it can only be read in one way. Blank: null. NaN: no figure, or one of two readings (see `figureProblem`).
 */
export function figureOf(text: string): number | null {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  const sign = /^[-−]/.test(trimmed) ? -1 : 1;
  const digits = trimmed.replace(/^[-−+]/, "");
  return sign * readingOf(digits);
}

function readingOf(digits: string): number {
  if (twoReadings.test(digits)) return Number.NaN;
  if (plain.test(digits)) return Number(digits.replace(",", "."));
  if (powerOfTen.test(digits)) return Number(digits);
  if (grouped.spaces.test(digits)) return Number(digits.replace(new RegExp(spaces, "g"), "").replace(",", "."));
  if (grouped.commas.test(digits)) return Number(digits.replaceAll(",", ""));
  if (grouped.points.test(digits)) return Number(digits.replaceAll(".", "").replace(",", "."));
  return Number.NaN;
}

/** Why a figure of two readings is not taken, and what to write instead; null: it is not such a one. */
export function figureProblem(text: string): string | null {
  const trimmed = text.trim();
  if (!twoReadings.test(trimmed.replace(/^[-−+]/, ""))) return null;
  const whole = trimmed.replace(/[.,]/, "");
  const decimal = String(Number(trimmed.replace("−", "-").replace(",", ".")));
  return `“${trimmed}” may be read as ${whole} or as ${decimal}: write ${whole} or ${decimal}.`;
}
