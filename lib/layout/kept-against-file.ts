import { fieldWordsOf } from "./column-words.ts";
import { joinHeaderRows } from "./header-key.ts";
import { type DecimalSign, fieldsOfOneFile, type Layout, type LayoutColumn } from "./layout.ts";
import { leakagesByUnit } from "./leakages-by-unit.ts";
import { locateColumns } from "./locate-columns.ts";
import { questionWords } from "./question-words.ts";
import { evidenceOf } from "./sample.ts";
import {
  type FormColumn,
  isPartedBy,
  orderOf,
  orderQuestion,
  orderWords,
  signChoices,
  signedColumns,
} from "./settle-forms.ts";
import { looksHeld, looksLikeShares } from "./settle-leakages.ts";
import type { Question, Sample, SuggestContext } from "./suggestion.ts";
import { valueAfter } from "./title-statements.ts";
import { valueUnitOf } from "./unit-words.ts";

/** Whether a file is what a kept layout says of it, as far as its own cells tell. */

export interface KeptChecked {
  /** The layout with what it leaves open and the file proves; where they contradict each other, with what is proven. */
  readonly layout: Layout;
  /** What the file tells otherwise, or leaves as open as the layout; none: it can be read by the layout. */
  readonly questions: readonly Question[];
}

/** Rows among which the header may stand. */
const looked = 60;

interface Found {
  readonly places: readonly number[];
  readonly title: Sample["records"];
  readonly rows: Sample["records"];
}

function locate(layout: Layout, records: Sample["records"]): Found | null {
  for (const [i, record] of records.slice(0, looked).entries()) {
    const upper = records[i - 1];
    if (layout.headerRows === 2 && upper === undefined) continue;
    const headings = layout.headerRows === 2 && upper !== undefined ? joinHeaderRows(upper, record) : record;
    const { missing, located } = locateColumns(layout, headings);
    if (missing.length > 0) continue;
    return {
      places: located.places,
      title: records.slice(0, i + 1 - layout.headerRows),
      rows: records.slice(i + 1),
    };
  }
  return null;
}

const asked = { needed: true, choices: [], likely: null } as const;

/** Leakages of a file that are no per cent lost, though by the layout they are. */
function leakQuestions(layout: Layout, { places, rows }: Found): readonly Question[] {
  const cells = places.map((place) => rows.map((row) => row[place] ?? ""));
  const percents = leakagesByUnit(layout, cells).map(({ percent }) => percent);
  const at = percents.flatMap((own, i) => (own.length > 0 ? [i] : []));
  const headers = at.map((i) => layout.columns[i]?.header ?? "");
  const texts = percents.flat();
  const example = texts[0] ?? "";
  if (looksLikeShares(texts))
    return [{ ...asked, code: "share", words: questionWords.share(headers, example), columns: at }];
  return looksHeld(texts)
    ? [{ ...asked, code: "leak-sense", words: questionWords.percentSense(headers), columns: at }]
    : [];
}

const codeOf = { unit: "unit", test_date: "test-date", meter: "meter" } as const;

/** What the layout says for the whole of a file: it was said of the file that it was kept for, so it is asked of each. */
const ofOneFile = (name: string, { constants }: Layout): readonly Question[] =>
  fieldsOfOneFile.flatMap((field): Question[] => {
    const likely = constants[field];
    if (likely === undefined) return [];
    const words = questionWords.keptForFile(name, fieldWordsOf(field), likely);
    return [{ ...asked, code: codeOf[field], words, columns: [], likely }];
  });

const withSign = (column: LayoutColumn, sign: DecimalSign): LayoutColumn =>
  column.is === "ignored" ? column : { ...column, decimalSign: sign };

/**
 * Sets a kept layout against the cells of a file that has its header: the order of dates and the decimal signs must be
 * those of the layout, and leakages what it takes them for; a unit, date or meter of one file is asked for. What the layout does not say is taken from the file where its
 * cells prove it, as in a suggestion.
 */
export function keptAgainstFile(
  { name, layout }: { readonly name: string; readonly layout: Layout },
  sample: Sample,
  { today }: Pick<SuggestContext, "today">,
): KeptChecked {
  const found = locate(layout, sample.records);
  // Reading it tells what is missing.
  if (found === null) return { layout, questions: [] };
  const { places, title, rows } = found;
  const columns = layout.columns.map((is, index): FormColumn => {
    const place = places[index] as number;
    const texts = place === -1 ? [] : rows.map((row) => row[place] ?? "");
    return { is, index, evidence: evidenceOf(texts, sample.columns[place]) };
  });
  const titles = layout.title.map(({ label, field }) => ({ field, text: valueAfter(title, label) ?? "" }));

  const questions: Question[] = [...ofOneFile(name, layout), ...leakQuestions(layout, found)];
  let dateOrder = layout.dateOrder;
  const order = orderOf(columns, titles, today);
  const dateColumns = columns.flatMap(({ is, index }) =>
    is.is === "field" && is.field === "test_date" ? [index] : [],
  );
  const open = orderQuestion(order, dateColumns);
  if (dateOrder === null) {
    if (order.is === "found") dateOrder = order.order;
    else if (open !== null) questions.push(open);
  } else if (order.is === "found" && order.order !== dateOrder) {
    const words = questionWords.keptOrder(name, {
      held: orderWords[dateOrder],
      by: order.by,
      told: orderWords[order.order],
    });
    const choices = [dateOrder, order.order].map((value) => ({ value, words: orderWords[value] }));
    questions.push({ ...asked, code: "date-order", words, columns: dateColumns, choices, likely: order.order });
    dateOrder = order.order;
  } else if (open !== null && (order.is !== "ambiguous" || (order.likely !== null && order.likely !== dateOrder))) {
    const words = questionWords.keptOpen(name, orderWords[dateOrder], open.words);
    questions.push({ ...open, words });
    dateOrder = null;
  }

  const ofColumns = new Map<number, DecimalSign>();
  for (const { index, is, found: sign } of signedColumns(
    columns,
    titles,
    valueUnitOf(layout.constants.value_unit ?? ""),
  )) {
    const own = is === null || is.is === "ignored" ? null : (is.decimalSign ?? null);
    const held = own ?? layout.decimalSign;
    const at = index === null ? [] : [index];
    if (sign.is === "contradictory") {
      const words = questionWords.numbersContradict(...sign.examples);
      questions.push({ ...asked, code: "numbers-contradict", words, columns: at, choices: signChoices });
    } else if (sign.is === "found" && held !== null && sign.sign !== held) {
      const words = questionWords.keptSign(name, { held, by: sign.by });
      questions.push({ ...asked, code: "decimal-sign", words, columns: at, choices: signChoices, likely: sign.sign });
    } else if (sign.is === "ambiguous" && !isPartedBy(sign, held)) {
      const words = questionWords.decimalSign(sign.example);
      questions.push({ ...asked, code: "decimal-sign", words, columns: at, choices: signChoices });
    }
    if (sign.is === "found" && sign.sign !== held && index !== null) ofColumns.set(index, sign.sign);
  }
  const read = layout.columns.map((column, i) => {
    const sign = ofColumns.get(i);
    return sign === undefined ? column : withSign(column, sign);
  });
  return { layout: { ...layout, dateOrder, columns: read }, questions };
}
