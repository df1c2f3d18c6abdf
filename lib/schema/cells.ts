import { z } from "zod";
import type { CylinderFinding } from "./facts.ts";
import { asTyped } from "./formula-cells.ts";
import { longestName } from "./longest-name.ts";
import { causes } from "./words.ts";

/**
 * What the cells of a CSV row may hold. A cell's schema takes the text as written and gives its value; its issue
 * message is a `CellFault`, which lib/intake/words.ts puts in words.
 */

export const cellFaults = [
  "empty",
  "not-measured",
  "not-a-number",
  "decimal-comma",
  "not-whole",
  "out-of-range",
  "not-a-date",
  "no-such-date",
  "unknown-word",
  "none-with-others",
  "bad-list",
  "too-long",
  "control-character",
  "not-a-name",
] as const;
export type CellFault = (typeof cellFaults)[number];

/** What a number may be. `above` excludes its bound; the others include theirs. */
export interface NumberRange {
  readonly above?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly whole?: boolean;
}

export interface Cell<T> {
  readonly schema: z.ZodType<T, string>;
  /** The words that the cell may hold, where it is one of a list. */
  readonly allowed?: readonly string[];
  readonly range?: NumberRange;
}

type Issue = (message: CellFault) => never;

/**
 * A cell schema from a function that gives the value or calls `fault`. Cells are trimmed first, and lose the apostrophe
 * that keeps a spreadsheet from running them.
 */
function cellSchema<T>(read: (text: string, fault: Issue) => T): z.ZodType<T, string> {
  return z.string().transform((raw, context) => {
    const fault = (message: CellFault) => {
      context.addIssue({ code: "custom", message });
      return z.NEVER;
    };
    return read(asTyped(raw.trim()), fault);
  });
}

const notMeasured = /^(n\/?a|n\.a\.?)$/i;
const numeral = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;

function readNumber(text: string, range: NumberRange, fault: Issue): number {
  if (!numeral.test(text)) return fault(/^[+-]?[\d.]*\d,[\d.,]*$/.test(text) ? "decimal-comma" : "not-a-number");
  const value = Number(text);
  if (!Number.isFinite(value)) return fault("not-a-number");
  if (range.whole === true && !Number.isSafeInteger(value)) return fault("not-whole");
  const { above, atLeast, atMost } = range;
  if (above !== undefined && value <= above) return fault("out-of-range");
  if ((atLeast !== undefined && value < atLeast) || (atMost !== undefined && value > atMost)) {
    return fault("out-of-range");
  }
  return value === 0 ? 0 : value;
}

/** A number that must be there. */
export const number = (range: NumberRange): Cell<number> => ({
  range,
  schema: cellSchema((text, fault) => {
    if (text === "") return fault("empty");
    return notMeasured.test(text) ? fault("not-measured") : readNumber(text, range, fault);
  }),
});

/** A number that may be left blank (or `n/a`): then `null`, or what `blank` says. */
export const optionalNumber = <B extends number | null>(range: NumberRange, blank: B): Cell<number | B> => ({
  range,
  schema: cellSchema((text, fault) => (text === "" || notMeasured.test(text) ? blank : readNumber(text, range, fault))),
});

export const longestText = 4_000;

/** Controls are never shown, and a terminal or a printer obeys them. */
const control = /\p{Cc}/u;
/** Of these, a text in quotes may hold line ends and tabs. */
const controlInText = /[^\P{Cc}\t\r\n]/u;

export const name: Cell<string> = {
  schema: cellSchema((text, fault) => {
    if (text === "") return fault("empty");
    if (control.test(text)) return fault("control-character");
    // A unit's name is part of its page's address, where these two lead elsewhere.
    if (text === "." || text === "..") return fault("not-a-name");
    return text.length > longestName ? fault("too-long") : text;
  }),
};

/** What people write where they know nothing; taken as text, it would make one engine of all that carry it. */
const notKnown = /^(n\/?a|n\.a\.?|[-–—]+|\?+|unknown)$/i;

/** Text that may be left blank, or say that nothing is known: then `null`. */
export const optionalText = (longest: number): Cell<string | null> => ({
  schema: cellSchema((text, fault) => {
    if (text === "" || notKnown.test(text)) return null;
    if (controlInText.test(text)) return fault("control-character");
    return text.length > longest ? fault("too-long") : text;
  }),
});

/** Text that must be there. */
export const text = (longest: number): Cell<string> => ({
  schema: cellSchema((given, fault) => {
    if (given === "" || notKnown.test(given)) return fault("empty");
    if (controlInText.test(given)) return fault("control-character");
    return given.length > longest ? fault("too-long") : given;
  }),
});

/** Words match in any case, and with blanks or `_` in place of `-`, as column names do. */
const wordKey = (text: string) =>
  text
    .toLowerCase()
    .replace("²", "2")
    .replace(/[\s_-]/g, "");

function wordFinder<W extends string>(words: readonly W[], others: Readonly<Record<string, W>> = {}) {
  const byKey = new Map<string, W>([...Object.entries(others), ...words.map((w): [string, W] => [wordKey(w), w])]);
  return (text: string): W | undefined => byKey.get(wordKey(text));
}

export const word = <W extends string>(words: readonly W[]): Cell<W> => {
  const find = wordFinder(words);
  return {
    allowed: words,
    schema: cellSchema((text, fault) => {
      if (text === "") return fault("empty");
      return find(text) ?? fault("unknown-word");
    }),
  };
};

export const optionalWord = <W extends string, B extends W | null>(words: readonly W[], blank: B): Cell<W | B> => {
  const find = wordFinder(words);
  return {
    allowed: words,
    schema: cellSchema((text, fault) => (text === "" ? blank : (find(text) ?? fault("unknown-word")))),
  };
};

const yes = new Map([
  ["yes", true],
  ["y", true],
  ["no", false],
  ["n", false],
]);

export const yesOrNo = <B extends boolean | null>(blank: B): Cell<boolean | B> => ({
  allowed: ["yes", "no"],
  schema: cellSchema((text, fault) => (text === "" ? blank : (yes.get(text.toLowerCase()) ?? fault("unknown-word")))),
});

/** Words joined by `+`, each once, in the order of the list. */
export const wordList = <W extends string>(words: readonly W[], alone: W | null): Cell<readonly W[]> => {
  const find = wordFinder(words);
  return {
    allowed: words,
    schema: cellSchema((text, fault) => {
      if (text === "") return [];
      const found = new Set<W>();
      for (const part of text.split("+")) {
        const known = find(part);
        if (known === undefined) return fault("unknown-word");
        found.add(known);
      }
      if (alone !== null && found.has(alone) && found.size > 1) return fault("none-with-others");
      return words.filter((w) => found.has(w));
    }),
  };
};

/** A calendar date and the time of day that may follow it, as written. */
interface DateCell {
  readonly date: string;
  readonly time: string | null;
}

const dateThenTime = /^(\d{4}-\d{2}-\d{2})(?:(?:T|\s+)(.+))?$/i;
const timeOfDay = /^([01]?\d|2[0-3]):[0-5]\d(:[0-5]\d([.,]\d+)?)?\s*(Z|[+-]\d{2}(:?\d{2})?)?$/i;
const calendarDate = z.iso.date();
/** Nobody kept such records before; a year of two digits or a slip of the keyboard falls below. */
const firstYear = "1900";

function readDate(text: string, fault: Issue): DateCell {
  const parts = dateThenTime.exec(text);
  const date = parts?.[1];
  const time = parts?.[2] ?? null;
  if (date === undefined || (time !== null && !timeOfDay.test(time))) return fault("not-a-date");
  return calendarDate.safeParse(date).success && date >= firstYear ? { date, time } : fault("no-such-date");
}

export const date: Cell<DateCell> = {
  schema: cellSchema((text, fault) => (text === "" ? fault("empty") : readDate(text, fault))),
};
export const optionalDate: Cell<DateCell | null> = {
  schema: cellSchema((text, fault) => (text === "" ? null : readDate(text, fault))),
};

/** `all` (or blank) or cylinder numbers joined by `+`, ascending, each once. */
export const cylinderList: Cell<"all" | readonly number[]> = {
  schema: cellSchema((text, fault) => {
    if (text === "" || text.toLowerCase() === "all") return "all";
    const numbers = new Set<number>();
    for (const part of text.split("+")) {
      const cylinder = Number(part.trim());
      if (!/^\s*\d{1,2}\s*$/.test(part) || cylinder < 1 || cylinder > 16) return fault("bad-list");
      numbers.add(cylinder);
    }
    return [...numbers].sort((a, b) => a - b);
  }),
};

const findCause = wordFinder(causes);

/** `2: exhaust-valve+inlet-valve; 3: sound`: causes by cylinder, ascending; a cylinder named twice has both lists. */
export const cylinderFindings: Cell<readonly CylinderFinding[]> = {
  allowed: [...causes, "sound"],
  schema: cellSchema((text, fault) => {
    const found = new Map<number, Set<string>>();
    for (const part of text.split(";")) {
      if (part.trim() === "") continue;
      const [, digits, list] = /^\s*(\d{1,2})\s*:(.*)$/.exec(part) ?? [];
      const cylinder = Number(digits);
      if (list === undefined || cylinder < 1 || cylinder > 16) return fault("bad-list");
      const its = found.get(cylinder) ?? new Set<string>();
      found.set(cylinder, its);
      if (wordKey(list) === "sound") continue;
      for (const word of list.split("+")) {
        const cause = findCause(word);
        if (cause === undefined) return fault("unknown-word");
        its.add(cause);
      }
    }
    return [...found]
      .map(([cylinder, its]) => ({ cylinder, causes: causes.filter((cause) => its.has(cause)) }))
      .sort((a, b) => a.cylinder - b.cylinder);
  }),
};
