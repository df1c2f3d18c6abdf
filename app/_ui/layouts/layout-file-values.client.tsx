"use client";

import { NativeSelect, TextInput } from "@mantine/core";
import type { DateOrder, DecimalSign, FileField, Layout } from "../../../lib/layout/layout.ts";
import { meterUnits } from "../../../lib/schema/words.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { openForFile, setConstant } from "./layout-edit.ts";
import { fieldWords, measureOptions, unitOptions } from "./layout-words.ts";

const choices: Partial<Record<FileField, readonly { readonly value: string; readonly label: string }[]>> = {
  test: measureOptions,
  value_unit: unitOptions,
  meter_unit: meterUnits.map((value) => ({ value, label: value })),
};
const help: Partial<Record<FileField, string>> = {
  test_date: "YYYY-MM-DD",
  supply: "In the unit of the readings; in kPa where they are in %.",
};

const dateOrders: readonly { readonly value: DateOrder | ""; readonly label: string }[] = [
  { value: "", label: "not known: such dates are refused" },
  { value: "day-first", label: "day first, 31.12.2026" },
  { value: "month-first", label: "month first, 12/31/2026" },
  { value: "year-first", label: "year first, 2026-12-31" },
];
const decimalSigns: readonly { readonly value: DecimalSign | ""; readonly label: string }[] = [
  { value: "", label: "not known: such numbers are refused" },
  { value: ".", label: "point, 1,250.5" },
  { value: ",", label: "comma, 1.250,5" },
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
            data={[...dateOrders]}
            onChange={({ currentTarget: { value } }) =>
              onChange({ ...layout, dateOrder: value === "" ? null : (value as DateOrder) })
            }
          />
          <NativeSelect
            label="Decimal sign"
            description="Of all figures in the file."
            value={layout.decimalSign ?? ""}
            data={[...decimalSigns]}
            onChange={({ currentTarget: { value } }) =>
              onChange({ ...layout, decimalSign: value === "" ? null : (value as DecimalSign) })
            }
          />
        </div>
      </fieldset>
    </>
  );
}
