/** What a cell's number format makes of its number, as far as it changes what the number says. */
export type NumberFormat =
  | { readonly kind: "plain" }
  | { readonly kind: "date"; readonly time: boolean }
  | { readonly kind: "time" }
  /** A span of hours and minutes that may exceed a day. */
  | { readonly kind: "duration" }
  | { readonly kind: "percent" }
  /** Letters around the number, and how many digits stand before the point at least. */
  | { readonly kind: "lettered"; readonly before: string; readonly after: string; readonly digits: number };

export const plain: NumberFormat = { kind: "plain" };
const dateFormat: NumberFormat = { kind: "date", time: false };
const timeFormat: NumberFormat = { kind: "time" };

/** Formats that a workbook names by number alone (ECMA-376 part 1, 18.8.30), and those of East Asian versions. */
function builtInFormat(id: number): NumberFormat {
  if (id === 9 || id === 10) return { kind: "percent" };
  if ((id >= 14 && id <= 17) || (id >= 27 && id <= 31) || id === 36 || (id >= 50 && id <= 58)) return dateFormat;
  if ((id >= 18 && id <= 21) || (id >= 32 && id <= 35) || id === 45 || id === 47) return timeFormat;
  if (id === 22) return { kind: "date", time: true };
  return id === 46 ? { kind: "duration" } : plain;
}

/**
 * The format of an id: by the code that the workbook gives for it, else built in. Of a code's sections the first counts,
 * which is that of positive numbers. How many decimals a format shows makes no difference: the cell's whole number is
 * taken.
 */
export function numberFormat(id: number, code: string | undefined): NumberFormat {
  return code === undefined ? builtInFormat(id) : formatOf(code);
}

/** Pieces of a format code: quoted text, an escaped letter, a space as wide as a letter, a filler, a bracket, or one sign. */
const token = /"[^"]*"|\\.|_.|\*.|\[[^\]]*\]|AM\/PM|A\/P|General|./giu;
const elapsed = /^\[(h+|m+|s+)\]$/i;
/** Money is told in no unit that intake knows: a sum is read as its number. */
const moneySigns = /\p{Sc}/gu;

function formatOf(code: string): NumberFormat {
  let marks = "";
  let isDuration = false;
  const letters = { before: "", after: "", within: "" };
  const say = (text: string) => {
    letters[/[0#?]/.test(marks) ? "after" : "before"] += text.replace(moneySigns, "");
  };
  for (const [piece] of code.matchAll(token)) {
    if (piece === ";") break;
    if (elapsed.test(piece)) isDuration = true;
    else if (piece.startsWith('"')) say(piece.slice(1, -1));
    else if (piece.startsWith("\\")) say(piece.slice(1));
    else if (piece.startsWith("_") || piece.startsWith("*")) say(" ");
    // A colour, a condition, a language or a currency.
    else if (piece.startsWith("[")) continue;
    else if (/^[0#?.,%ymdhsebg@E/]$|^general$|^a(m\/p|\/p)m?$/i.test(piece)) {
      if (/[0#?]/.test(piece) && letters.after !== "") {
        letters.within += letters.after;
        letters.after = "";
      }
      marks += piece.toLowerCase();
    } else say(piece);
  }
  if (isDuration) return { kind: "duration" };
  if (marks.includes("@") || marks.includes("general")) return plain;
  if (/[0#?]/.test(marks)) {
    if (marks.includes("%")) return { kind: "percent" };
    return /[e/]/.test(marks) ? plain : lettered(marks, letters);
  }
  const hasTime = /[hs]/.test(marks);
  if (/[yd]/.test(marks) || (marks.includes("m") && !hasTime)) return { kind: "date", time: hasTime };
  return hasTime ? timeFormat : plain;
}

function lettered(
  marks: string,
  letters: { readonly before: string; readonly after: string; readonly within: string },
): NumberFormat {
  // Letters among the digits, as in a telephone number, are no number to people and programs alike.
  if (letters.within.trim() !== "") return plain;
  const whole = marks.split(".")[0] ?? "";
  const zeros = whole.includes(",") ? 1 : whole.replace(/[^0]/g, "").length;
  const [before, after] = [letters.before.trimStart(), letters.after.trimEnd()];
  return before === "" && after === "" && zeros <= 1 ? plain : { kind: "lettered", before, after, digits: zeros };
}
