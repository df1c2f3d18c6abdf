"use client";

import { NativeSelect, TextInput } from "@mantine/core";
import { fieldWordsOf } from "../../../lib/layout/column-words.ts";
import type { DateOrder, DecimalSign, FileField, Layout } from "../../../lib/layout/layout.ts";
import { meterUnits } from "../../../lib/schema/words.ts";
import { listWords } from "../../../lib/wording.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { openForFile, setConstant } from "./layout-edit.ts";
import { dateOrderWords, decimalSignWords, fieldWords, measureOptions, unitOptions } from "./layout-words.ts";

const choices: Partial<Record<FileField, readonly { readonly value: string; readonly label: string }[]>> = {
  test: measureOptions,
  value_unit: unitOptions,
  meter_unit: meterUnits.map((value) => ({ value, label: value })),
};
const help: Partial<Record<FileField, string>> = {
  test_date: "YYYY-MM-DD",
  supply: "In the unit of the readings; in kPa where they are in %.",
};

const optionsOf = <T extends string>(words: Readonly<Record<T, string>>, none: string) => [
  { value: "", label: none },
  ...Object.entries<string>(words).map(([value, label]) => ({ value, label })),
];

/** What no column tells and so holds for the whole file; and how its dates and numbers are written. */
export function LayoutFileValues(props: {
  readonly layout: Layout;
  readonly problems: FieldProblems;
  readonly onChange: (layout: Layout) => void;
}) {
  const { layout, problems, onChange } = props;
  const open = openForFile(layout);
  return (
    <>
      {layout.title.length > 0 && (
        <p className="second">
          Read anew from what stands above the table of each file:{" "}
          {listWords(layout.title.map(({ label, field }) => `${fieldWordsOf(field)} (after “${label}”)`))}.
        </p>
      )}
      {open.length > 0 && (
        <fieldset>
          <legend>The same for the whole file</legend>
          <p className="second">
            What no column tells. Leave empty what you do not know; rows that need it are refused.
          </p>
          <div className="field-row">
            {open.map((field) => {
              const value = layout.constants[field] ?? "";
              const options = choices[field];
              const set = (next: string) => onChange(setConstant(layout, field, next));
              const error = problems[`constants.${field}`];
              return options === undefined ? (
                <TextInput
                  key={field}
                  label={fieldWords(field)}
                  {...(help[field] === undefined ? {} : { description: help[field] })}
                  value={value}
                  error={error}
                  autoComplete="off"
                  onChange={(event) => set(event.currentTarget.value)}
                />
              ) : (
                <NativeSelect
                  key={field}
                  label={fieldWords(field)}
                  value={value}
                  error={error}
                  data={[{ value: "", label: "not told" }, ...options]}
                  onChange={(event) => set(event.currentTarget.value)}
                />
              );
            })}
          </div>
        </fieldset>
      )}
      <fieldset>
        <legend>How dates and numbers are written</legend>
        <div className="field-row">
          <NativeSelect
            label="Dates"
            description="Where figures alone tell them."
            value={layout.dateOrder ?? ""}
            data={optionsOf(dateOrderWords, "not known: such dates are refused")}
            onChange={({ currentTarget: { value } }) =>
              onChange({ ...layout, dateOrder: value === "" ? null : (value as DateOrder) })
            }
          />
          <NativeSelect
            label="Decimal sign"
            description="Of all figures in the file."
            value={layout.decimalSign ?? ""}
            data={optionsOf(decimalSignWords, "not known: such numbers are refused")}
            onChange={({ currentTarget: { value } }) =>
              onChange({ ...layout, decimalSign: value === "" ? null : (value as DecimalSign) })
            }
          />
        </div>
      </fieldset>
    </>
  );
}
