import type { NumberRange } from "../schema/cells.ts";
import { type Columns, longColumns } from "../schema/rows.ts";
import { filled } from "./column-content.ts";
import { findDateOrder } from "./dates.ts";
import type { Guess } from "./guess-columns.ts";
import type { DateOrder, DecimalSign, LayoutField } from "./layout.ts";
import { findDecimalSign, type NumberColumn } from "./numbers.ts";
import { questionWords } from "./question-words.ts";
import type { Question, SuggestContext } from "./suggestion.ts";
import { splitUnit } from "./unit-words.ts";

/** The order of dates and the decimal sign of a file, from all that it holds. */

export interface FormsSettled {
  readonly dateOrder: DateOrder | null;
  readonly decimalSign: DecimalSign | null;
  readonly questions: readonly Question[];
}

const orderWords: Record<DateOrder, string> = {
  "day-first": "the day",
  "month-first": "the month",
  "year-first": "the year",
};
const orderChoices = (orders: readonly DateOrder[]) =>
  orders.map((order) => ({ value: order, words: orderWords[order] }));
const signChoices = [
  { value: ".", words: "the dot is the decimal sign" },
  { value: ",", words: "the comma is the decimal sign" },
];

const columnsByName: Columns = longColumns;
const rangeOf = (field: LayoutField): NumberRange | undefined => columnsByName[field]?.range;
const figuresOf = (texts: readonly string[]) => filled(texts).flatMap((text) => splitUnit(text).figure.split("/"));

function numberColumns(
  guesses: readonly Guess[],
  title: readonly { readonly field: LayoutField; readonly text: string }[],
): NumberColumn[] {
  const inColumns = guesses.flatMap(({ is, texts }): NumberColumn[] => {
    if (is.is === "ignored") return [];
    const range = is.is === "reading" ? {} : rangeOf(is.field);
    return range === undefined || (is.is === "field" && is.field === "cylinder")
      ? []
      : [{ texts: figuresOf(texts), range }];
  });
  const inTitle = title.flatMap(({ field, text }): NumberColumn[] => {
    const range = rangeOf(field);
    return range === undefined ? [] : [{ texts: figuresOf([text]), range }];
  });
  return [...inColumns, ...inTitle];
}

export function settleForms(
  guesses: readonly Guess[],
  title: readonly { readonly field: LayoutField; readonly text: string }[],
  { today }: Pick<SuggestContext, "today">,
): FormsSettled {
  const questions: Question[] = [];
  const ask = (question: Pick<Question, "code" | "words" | "columns" | "choices">) =>
    questions.push({ needed: true, likely: null, ...question });

  const dateColumns = guesses.flatMap(({ is }, i) => (is.is === "field" && is.field === "test_date" ? [i] : []));
  const dates = [
    ...dateColumns.flatMap((i) => filled(guesses[i]?.texts ?? [])),
    ...title.filter(({ field }) => field === "test_date").map(({ text }) => text),
  ];
  const order = findDateOrder(dates, today);
  const orders = ["day-first", "month-first"] as const;
  if (order.is === "ambiguous") {
    ask({
      code: "date-order",
      words: questionWords.dateOrder(order.example),
      columns: dateColumns,
      choices: orderChoices(order.orders),
    });
  } else if (order.is === "contradictory") {
    ask({
      code: "dates-contradict",
      words: questionWords.datesContradict(...order.examples),
      columns: dateColumns,
      choices: orderChoices(orders),
    });
  } else if (order.is === "turned") {
    ask({
      code: "dates-turned",
      words: questionWords.datesTurned(...order.examples),
      columns: dateColumns,
      choices: orderChoices(orders),
    });
  }

  const sign = findDecimalSign(numberColumns(guesses, title));
  if (sign.is === "ambiguous") {
    ask({ code: "decimal-sign", words: questionWords.decimalSign(sign.example), columns: [], choices: signChoices });
  } else if (sign.is === "contradictory") {
    ask({
      code: "numbers-contradict",
      words: questionWords.numbersContradict(...sign.examples),
      columns: [],
      choices: signChoices,
    });
  }
  return {
    dateOrder: order.is === "found" ? order.order : null,
    decimalSign: sign.is === "found" ? sign.sign : null,
    questions,
  };
}
