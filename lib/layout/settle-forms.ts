import type { NumberRange } from "../schema/cells.ts";
import { type Columns, longColumns } from "../schema/rows.ts";
import type { ValueUnit } from "../schema/words.ts";
import { fromKpa, gaugeKpa } from "../units.ts";
import { addDate, type DateEvidence, findDateOrder, type OrderFound } from "./date-order.ts";
import {
  addNumber,
  findDecimalSign,
  type NumberEvidence,
  noNumbers,
  type RangeOf,
  type SignFound,
} from "./decimal-sign.ts";
import type { DateOrder, DecimalSign, LayoutColumn, LayoutField } from "./layout.ts";
import { questionWords } from "./question-words.ts";
import { type ColumnEvidence, evidenceOf } from "./sample.ts";
import type { Question, SuggestContext } from "./suggestion.ts";
import { valueUnitOf } from "./unit-words.ts";

/** The order of dates and the decimal signs of a file, from all that its columns hold. */

/** A column with all that the file shows of it. */
export interface FormColumn {
  readonly is: LayoutColumn;
  /** Its place among the columns of the layout. */
  readonly index: number;
  readonly evidence: ColumnEvidence;
}
export interface FormTitle {
  readonly field: LayoutField;
  readonly text: string;
}

export interface FormsSettled {
  readonly dateOrder: DateOrder | null;
  readonly decimalSign: DecimalSign | null;
  /** Columns whose own cells prove a sign while that of the file is not this one, or not known. */
  readonly ofColumns: ReadonlyMap<number, DecimalSign>;
  readonly questions: readonly Question[];
}

export const orderWords: Record<DateOrder, string> = {
  "day-first": "the day",
  "month-first": "the month",
  "year-first": "the year",
};
const orderChoices = (orders: readonly DateOrder[]) =>
  orders.map((order) => ({ value: order, words: orderWords[order] }));
export const signChoices = [
  { value: ".", words: "the dot is the decimal sign" },
  { value: ",", words: "the comma is the decimal sign" },
];

const columnsByName: Columns = longColumns;
const fieldRange = (field: LayoutField): NumberRange | undefined => columnsByName[field]?.range;

/** Pressures (kPa) that a cylinder or a supply comes to; what lies beyond cannot be meant by a number with a sign in it. */
const [leastKpa, mostKpa] = [10, 6_000];
/** In whatever unit, and above what intake takes. */
const anyPressure: NumberRange = { atLeast: 0, atMost: 10_000 };

function pressureRange(unit: ValueUnit | null): NumberRange {
  if (unit === null) return anyPressure;
  if (unit === "%") return { atLeast: 0, atMost: 100 };
  return { atLeast: fromKpa(gaugeKpa(leastKpa), unit), atMost: fromKpa(gaugeKpa(mostKpa), unit) };
}

/** What the figures of a column can be; null: it holds none. `unitOfFile`: of readings that have no other. */
function rangeOfColumn(is: LayoutColumn, unitOfFile: ValueUnit | null): RangeOf | null {
  if (is.is === "ignored" || (is.is === "field" && is.field === "cylinder")) return null;
  const isPressure = is.is === "reading" || is.field === "supply" || is.field === "first_stroke";
  if (isPressure) return (unit) => pressureRange(valueUnitOf(unit) ?? is.unit ?? unitOfFile);
  const range = fieldRange(is.field);
  return range === undefined ? null : () => range;
}

function mergedDates(all: readonly DateEvidence[], texts: readonly string[]): DateEvidence {
  const [first, ...others] = all;
  const merged = evidenceOf(texts, first === undefined ? undefined : { dates: first, numbers: noNumbers() }).dates;
  for (const { fixed, kinds } of others) {
    if (fixed !== null) addDate(merged, fixed);
    for (const { distinct } of kinds.values()) for (const text of distinct) addDate(merged, text);
  }
  return merged;
}

/** The order of the dates of all columns that hold the date of the test, and of the title. */
export function orderOf(columns: readonly FormColumn[], title: readonly FormTitle[], today: SuggestContext["today"]) {
  const dates = columns.filter(({ is }) => is.is === "field" && is.field === "test_date");
  const texts = title.filter(({ field }) => field === "test_date").map(({ text }) => text);
  return findDateOrder(
    mergedDates(
      dates.map(({ evidence }) => evidence.dates),
      texts,
    ),
    today,
  );
}

/** The question that the dates of a file leave open; null: none. */
export function orderQuestion(order: OrderFound, columns: readonly number[]): Question | null {
  const asked = { needed: true, columns, likely: null } as const;
  const either = orderChoices(["day-first", "month-first"]);
  switch (order.is) {
    case "ambiguous": {
      const words =
        order.by === null
          ? questionWords.dateOrder(order.example)
          : questionWords.dateOrderBarely(order.example, order.by);
      return { ...asked, code: "date-order", words, choices: orderChoices(order.orders), likely: order.likely };
    }
    case "contradictory":
      return {
        ...asked,
        code: "dates-contradict",
        words: questionWords.datesContradict(...order.examples),
        choices: either,
      };
    case "turned":
      return { ...asked, code: "dates-turned", words: questionWords.datesTurned(...order.examples), choices: either };
    default:
      return null;
  }
}

interface Signed {
  readonly index: number | null;
  readonly is: LayoutColumn | null;
  readonly found: SignFound;
}

/**
 * Whether a decimal sign that is known settles the open cells of a column. One that other columns are written with settles an open cell only where it makes the cell's sign part thousands, as
 * people do: nobody writes all of a column with 3 decimals, so what would come out so may be written otherwise.
 */
export const isPartedBy = (found: SignFound, sign: DecimalSign | null): boolean =>
  found.is === "ambiguous" && sign !== null && !found.signs.includes(sign);

export function signedColumns(
  columns: readonly FormColumn[],
  title: readonly FormTitle[],
  unitOfFile: ValueUnit | null,
): readonly Signed[] {
  const find = (evidence: NumberEvidence, range: RangeOf | null): SignFound =>
    range === null ? { is: "no-matter" } : findDecimalSign(evidence, range);
  return [
    ...columns.map(({ is, index, evidence }) => ({
      is,
      index,
      found: find(evidence.numbers, rangeOfColumn(is, unitOfFile)),
    })),
    ...title.map(({ field, text }) => {
      const evidence = noNumbers();
      addNumber(evidence, text);
      const range = fieldRange(field);
      return { is: null, index: null, found: find(evidence, range === undefined ? null : () => range) };
    }),
  ];
}

function settleSigns(signed: readonly Signed[]): Omit<FormsSettled, "dateOrder"> {
  const proven = signed.flatMap(({ index, found }) => (found.is === "found" ? [{ index, ...found }] : []));
  const written = new Set(proven.filter(({ isWritten }) => isWritten).map(({ sign }) => sign));
  const [oneWritten] = written;
  const sign = written.size === 1 ? (oneWritten ?? null) : null;
  const contradictory = signed.flatMap(({ index, found }) => (found.is === "contradictory" ? [{ index, found }] : []));
  const open = signed.flatMap(({ index, is, found }) =>
    found.is === "ambiguous" && !isPartedBy(found, sign) ? [{ index, is, found }] : [],
  );
  const isByOthers = signed.some(({ found }) => isPartedBy(found, sign));
  const signsProven = new Set([...proven.map((column) => column.sign), ...(isByOthers && sign !== null ? [sign] : [])]);
  const [oneProven] = signsProven;
  const isOpen = open.length > 0 || contradictory.length > 0;
  const isOne = signsProven.size === 1 && !isOpen;

  const questions: Question[] = [];
  const places = (columns: readonly { readonly index: number | null }[]) =>
    columns.flatMap(({ index }) => (index === null ? [] : [index]));
  const [firstOpen] = open;
  if (firstOpen !== undefined) {
    const isMeter = ({ is }: Signed) => is?.is === "field" && is.field === "meter";
    const inIt = new Set(open.flatMap(({ found }) => found.signs));
    // Meters have a decimal or none; three figures behind a sign are thousands.
    const likely = open.every((one) => isMeter(one)) && inIt.size === 1 ? (inIt.has(".") ? "," : ".") : sign;
    const words = questionWords.decimalSign(firstOpen.found.example);
    questions.push({ code: "decimal-sign", needed: true, words, columns: places(open), choices: signChoices, likely });
  }
  const [firstContradictory] = contradictory;
  if (firstContradictory !== undefined) {
    const words = questionWords.numbersContradict(...firstContradictory.found.examples);
    const columns = places(contradictory);
    questions.push({ code: "numbers-contradict", needed: true, words, columns, choices: signChoices, likely: null });
  }
  const bySettled = signed.flatMap(({ index, found }) =>
    isPartedBy(found, sign) ? [{ index, sign: sign as DecimalSign }] : [],
  );
  const own = [...proven, ...bySettled].flatMap(({ index, sign: of }) =>
    index === null ? [] : [[index, of] as const],
  );
  return {
    decimalSign: isOne ? (oneProven ?? null) : null,
    ofColumns: isOne ? new Map() : new Map(own),
    questions,
  };
}

export function settleForms(
  columns: readonly FormColumn[],
  title: readonly FormTitle[],
  { today, unitOfFile }: Pick<SuggestContext, "today"> & { readonly unitOfFile: ValueUnit | null },
): FormsSettled {
  const order = orderOf(columns, title, today);
  const dateColumns = columns.flatMap(({ is, index }) =>
    is.is === "field" && is.field === "test_date" ? [index] : [],
  );
  const asked = orderQuestion(order, dateColumns);
  const signs = settleSigns(signedColumns(columns, title, unitOfFile));
  return {
    ...signs,
    dateOrder: order.is === "found" ? order.order : null,
    questions: asked === null ? signs.questions : [asked, ...signs.questions],
  };
}
