import type { IsoDate } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import type { Layout, LayoutColumn } from "./layout.ts";
import type { ColumnEvidence } from "./sample.ts";

/** What `suggestLayout` is given and what it gives. */

/** What is looked at of a file to tell how its columns are read (`lib/layout/sample.ts`). */
export interface Sample {
  /** The first records and those that show more, blank ones left out. */
  readonly records: readonly (readonly string[])[];
  /** What the cells beyond the first records show, by the place of their column. */
  readonly columns: readonly ColumnEvidence[];
}

/** What is known of the fleet; it settles what the file leaves open. */
export interface SuggestContext {
  /** No test was made after this day; null: not known. */
  readonly today: IsoDate | null;
  /** Ids of the engine models. */
  readonly models: ReadonlySet<string>;
  /** The meter unit of each known unit; null: not known. */
  readonly units: ReadonlyMap<string, MeterUnit | null>;
}

export type Sureness = "sure" | "likely" | "unknown";

/** What is thought of one column; its place is that of the layout's column. */
export interface ColumnGuess {
  readonly header: string;
  readonly is: LayoutColumn;
  readonly sureness: Sureness;
  /** A sentence for people: by which heading or content. */
  readonly why: string;
  /** Up to 3 cells as written. */
  readonly examples: readonly string[];
}

export const questionCodes = [
  "no-header",
  "unit",
  "test-date",
  "meter",
  "meter-unit",
  "test",
  "readings",
  "cylinder",
  "value-unit",
  "supply",
  "supply-unit",
  "date-order",
  "dates-contradict",
  "dates-turned",
  "decimal-sign",
  "numbers-contradict",
  "leak-sense",
  "share",
  "foreign-unit",
  "same-meaning",
  "kept-layouts",
  "engine-model",
  "column",
] as const;
export type QuestionCode = (typeof questionCodes)[number];

export interface Choice {
  readonly value: string;
  readonly words: string;
  /** What columns left out so far become by this choice, and what then holds for the whole file. */
  readonly becomes?: {
    readonly columns: readonly { readonly index: number; readonly is: LayoutColumn }[];
    readonly constants: Layout["constants"];
  };
}

/** Something that the file does not tell. Until it is answered, what hangs on it is left out or refused, never guessed. */
export interface Question {
  readonly code: QuestionCode;
  /** The question as a sentence or two for people. */
  readonly words: string;
  /** Rows cannot be read, or not all that they hold, before it is answered. The others may stay open. */
  readonly needed: boolean;
  /** Places of the columns that it is about; empty: the whole file. */
  readonly columns: readonly number[];
  /** Answers to choose from, for `answered`; empty: a text is asked for, or the columns are to be mapped by hand. */
  readonly choices: readonly Choice[];
  /** The choice that the figures speak for; null: none. */
  readonly likely: string | null;
}

export interface Suggestion {
  /** The file has the contract's own columns and needs no layout. */
  readonly isContract: boolean;
  /** As far as the file tells; null: it is the contract's, or has no header that anyone knows. */
  readonly layout: Layout | null;
  /** One for each column of the layout. */
  readonly columns: readonly ColumnGuess[];
  readonly questions: readonly Question[];
}
