"use client";

import { NativeSelect, TextInput } from "@mantine/core";
import type { FieldProblems } from "../asking/field-problems.ts";
import type { FieldSet, FigureName } from "./field-sets.ts";
import type { WorkshopFields } from "./workshop-fields.ts";
import { monthNames } from "./workshop-words.ts";

const months = monthNames.map((label, i) => ({ value: String(i + 1), label }));

type Figures = WorkshopFields["figures"];

/** One subject's figures, each with its unit, what it does, and what it is by default. */
export function FigureFields(props: {
  readonly set: FieldSet<FigureName>;
  readonly figures: Figures;
  readonly defaults: Figures;
  readonly problems: FieldProblems;
  readonly onChange: (name: FigureName, value: string) => void;
}) {
  const { set, figures, defaults, problems } = props;
  return (
    <>
      <p className="second">{set.says}</p>
      <div className="field-row">
        {set.fields.map(({ name, label, unit, help, kind, empty }) => {
          const usual = defaults[name] === "" ? (empty ?? "none") : defaults[name];
          const shown = kind === "month" ? (months[Number(usual) - 1]?.label ?? usual) : usual;
          const common = {
            label: unit === undefined ? label : `${label}, ${unit}`,
            description: `${help} ${figures[name].trim() === defaults[name] ? "As by default." : `By default ${shown}.`}`,
            inputWrapperOrder: ["label", "input", "description", "error"] as (
              | "label"
              | "input"
              | "description"
              | "error"
            )[],
            value: figures[name],
            error: problems[name],
          };
          return kind === "month" ? (
            <NativeSelect
              key={name}
              {...common}
              data={months}
              onChange={(event) => props.onChange(name, event.currentTarget.value)}
            />
          ) : (
            <TextInput
              key={name}
              {...common}
              {...(kind === "date" ? { type: "date" } : {})}
              {...(kind === undefined || kind === "share" ? { inputMode: "decimal" as const } : {})}
              {...(empty === undefined || kind === "date" ? {} : { placeholder: empty })}
              autoComplete="off"
              onChange={(event) => props.onChange(name, event.currentTarget.value)}
            />
          );
        })}
      </div>
    </>
  );
}
