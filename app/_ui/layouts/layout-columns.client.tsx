"use client";

import { NativeSelect } from "@mantine/core";
import type { Layout, LayoutColumn, LayoutField } from "../../../lib/layout/layout.ts";
import { mostCylinders } from "../../../lib/schema/rows.ts";
import type { Measure, ValueUnit } from "../../../lib/schema/words.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { columnIs, hasUnit, isColumnIs, refineColumn, setColumn } from "./layout-edit.ts";
import { columnFields, fieldWords, headingWords, measureOptions, unitOptions } from "./layout-words.ts";

/** What the file shows of one column, and how sure the suggestion is. */
export interface ColumnShown {
  /** The first cells that are filled. */
  readonly samples: readonly string[];
  /** Why it was suggested so, or what is asked, as a sentence; null: nothing to say. */
  readonly note: string | null;
  /** A person has to look at it. */
  readonly asks: boolean;
}

const kinds = [
  { value: "ignored", label: "not read" },
  { value: "reading", label: "a reading" },
  ...columnFields.map((value) => ({ value, label: fieldWords(value) })),
];
const cylinders = Array.from({ length: mostCylinders }, (_, i) => ({
  value: String(i + 1),
  label: `cylinder ${i + 1}`,
}));

/** Each column of the file with what is in it, and what it is to be read as. */
export function LayoutColumns(props: {
  readonly layout: Layout;
  /** By column; null: no file is at hand. */
  readonly shown: readonly ColumnShown[] | null;
  readonly problems: FieldProblems;
  readonly onChange: (layout: Layout) => void;
}) {
  const { layout, shown, problems, onChange } = props;
  return (
    <ol className="layout-columns">
      {layout.columns.map((column, index) => {
        const name = headingWords(column.header, index);
        const { samples = [], note = null, asks = false } = shown?.[index] ?? {};
        return (
          // Two columns may have the same heading.
          // biome-ignore lint/suspicious/noArrayIndexKey: columns keep their order.
          <li key={index} data-asks={asks} data-ignored={column.is === "ignored"}>
            <div className="layout-column-says">
              <h3>{name}</h3>
              {shown !== null && (
                <p className="second small">{samples.length === 0 ? "nothing in it" : samples.join(" · ")}</p>
              )}
              {note !== null && <p className="small">{note}</p>}
            </div>
            <fieldset className="layout-column-fields">
              <legend className="visually-hidden">{name}</legend>
              <NativeSelect
                label="Read as"
                value={columnIs(column)}
                data={kinds}
                error={problems[`columns.${index}`]}
                onChange={({ currentTarget: { value } }) => {
                  if (isColumnIs(value)) onChange(setColumn(layout, index, value));
                }}
              />
              <Refined column={column} onChange={(more) => onChange(refineColumn(layout, index, more))} />
            </fieldset>
          </li>
        );
      })}
    </ol>
  );
}

/** Fields that one row has once, whatever it reads. */
const ofTheRow: ReadonlySet<LayoutField> = new Set([
  "unit",
  "engine_model",
  "test_date",
  "meter",
  "meter_unit",
  "cylinder",
  "depot",
  "engine_serial",
]);

/** Of a reading, or of a field that holds for some readings alone: which cylinder, which test, which unit. */
function Refined(props: {
  readonly column: LayoutColumn;
  readonly onChange: (more: Parameters<typeof refineColumn>[2]) => void;
}) {
  const { column, onChange } = props;
  if (column.is === "ignored" || (column.is === "field" && ofTheRow.has(column.field))) return null;
  const isReading = column.is === "reading";
  const is = columnIs(column);
  return (
    <>
      <NativeSelect
        label="Of cylinder"
        value={column.cylinder === null ? "" : String(column.cylinder)}
        data={[{ value: "", label: isReading ? "told by a column" : "all" }, ...cylinders]}
        onChange={({ currentTarget: { value } }) => onChange({ cylinder: value === "" ? null : Number(value) })}
      />
      <NativeSelect
        label="Of test"
        value={column.measure ?? ""}
        data={[{ value: "", label: isReading ? "told by row or file" : "all" }, ...measureOptions]}
        onChange={({ currentTarget: { value } }) => onChange({ measure: value === "" ? null : (value as Measure) })}
      />
      {hasUnit(is) && (
        <NativeSelect
          label="Unit"
          value={column.unit ?? ""}
          data={[{ value: "", label: "told by cell, row or file" }, ...unitOptions]}
          onChange={({ currentTarget: { value } }) => onChange({ unit: value === "" ? null : (value as ValueUnit) })}
        />
      )}
    </>
  );
}
