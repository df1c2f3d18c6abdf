import { contentFits } from "./column-content.ts";
import { type FileField, fileFields } from "./layout.ts";
import { labelsOf } from "./synonyms.ts";
import { type TitleBlock, valueAfter } from "./title-block.ts";
import { wordsOf } from "./trade-words.ts";

/** What a title block tells by its labels: `Unit: V-12`, or `Date` with the date in the next cell. */

/** The labels of a title block: cells that end in a colon or stand before one, or whose neighbour holds a value. */
function labelsIn(title: TitleBlock): readonly string[] {
  return title.flatMap((record) =>
    record.flatMap((cell, i) => {
      const text = cell.trim();
      const sign = /[:=]/.exec(text);
      if (sign !== null) return [text.slice(0, sign.index)];
      return text !== "" && record.slice(i + 1).some((next) => next.trim() !== "") ? [text] : [];
    }),
  );
}

/** Fields that a title block cannot well tell by the same words as something else would. */
const neverInTitle: ReadonlySet<FileField> = new Set(["test", "value_unit", "attempt"]);

/** For each field that no column tells and a label names: the label as written, and what stands after it. */
export function titleFields(
  title: TitleBlock,
  isTold: (field: FileField) => boolean,
): readonly { readonly label: string; readonly field: FileField; readonly text: string }[] {
  const labels = labelsIn(title);
  return fileFields.flatMap((field) => {
    if (isTold(field) || neverInTitle.has(field)) return [];
    for (const word of labelsOf(field)) {
      const label = labels.find((found) => wordsOf(found) === word);
      const text = label === undefined ? null : valueAfter(title, label);
      if (label !== undefined && text !== null && contentFits(field, [text]))
        return [{ label: label.trim(), field, text }];
    }
    return [];
  });
}
