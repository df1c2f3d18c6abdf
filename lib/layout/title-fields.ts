import { contentFits } from "./column-content.ts";
import { type FileField, fileFields } from "./layout.ts";
import type { SuggestContext } from "./suggestion.ts";
import { isBareNoun, isLikeNumber, meaningsOfWords } from "./synonyms.ts";
import { type Statement, statementsOf, type TitleBlock, valueAfter } from "./title-statements.ts";
import { wordsOf } from "./trade-words.ts";
import { isUnit } from "./unit-words.ts";

/** What a title block tells by its labels: `Unit: V-12`, or `Date` with the date in the next cell. */

export interface TitleField {
  readonly label: string;
  readonly field: FileField;
  readonly text: string;
}

/** Fields that a title block cannot well tell by the same words as something else would. */
const neverInTitle: ReadonlySet<FileField> = new Set(["test", "value_unit", "attempt"]);

/** Whether a value can be meant by its label: `Unit: psi` is of the readings, and `Vehicle: van` is no number of one. */
function isMeant(field: FileField, { label, value }: Statement, { models, units }: SuggestContext): boolean {
  if (field === "engine_model") return models.has(value);
  if (field === "unit" && (isUnit(value) || (isBareNoun(wordsOf(label)) && !units.has(value) && !isLikeNumber(value))))
    return false;
  return contentFits(field, [value]);
}

/**
 * For each field that no column tells and a label names: the label as written, and what stands after it. Where two labels
 * tell a field differently, none does.
 */
export function titleFields(
  title: TitleBlock,
  isTold: (field: FileField) => boolean,
  context: SuggestContext,
): readonly TitleField[] {
  const labelled = new Map<FileField, Statement[]>();
  for (const statement of title.flatMap((record) => statementsOf(record))) {
    if (statement.label === "" || statement.value === "") continue;
    for (const meaning of meaningsOfWords(wordsOf(statement.label))) {
      const field = fileFields.find((name) => name === meaning);
      if (field === undefined || !isMeant(field, statement, context)) continue;
      labelled.set(field, [...(labelled.get(field) ?? []), statement]);
    }
  }
  return fileFields.flatMap((field): TitleField[] => {
    const [first, ...others] = labelled.get(field) ?? [];
    if (first === undefined || isTold(field) || neverInTitle.has(field)) return [];
    if (others.some(({ value }) => value !== first.value)) return [];
    const text = valueAfter(title, first.label);
    return text === null ? [] : [{ label: first.label, field, text }];
  });
}
