"use client";

import { TextInput } from "@mantine/core";
import type { FieldProblems } from "../asking/field-problems.ts";
import { type ClassField, classFields } from "./field-sets.ts";
import type { ClassRow, WorkshopFields } from "./workshop-fields.ts";

/** What each class of units costs otherwise than any; one opens at a time that somebody asks for, or that is not taken. */
export function ClassFields(props: {
  readonly classes: readonly ClassRow[];
  /** Of any class: what holds where a field is empty. */
  readonly any: WorkshopFields["figures"];
  readonly problems: FieldProblems;
  readonly onChange: (unitClass: string, name: ClassField, value: string) => void;
}) {
  const { classes, any, problems } = props;
  if (classes.length === 0) return <p>No unit has a class yet: its units file tells it.</p>;
  return (
    <ul className="class-list">
      {classes.map((row) => {
        const own = classFields.filter(({ name }) => row[name].trim() !== "");
        const problem = (name: string) => problems[`classes.${row.unitClass}.${name}`];
        const isRefused = classFields.some(({ name }) => problem(name) !== undefined);
        return (
          <li key={row.unitClass}>
            <details open={isRefused}>
              <summary>
                <strong>{row.unitClass}</strong>{" "}
                <span className="second">
                  {own.length === 0 ? "as any class" : own.map(({ name, short }) => `${row[name]} ${short}`).join(", ")}
                </span>
              </summary>
              <fieldset>
                <legend className="visually-hidden">Class {row.unitClass}</legend>
                <div className="field-row">
                  {classFields.map(({ name, label, unit }) => (
                    <TextInput
                      key={name}
                      label={`${label}, ${unit}`}
                      inputMode="decimal"
                      placeholder={`${any[`anyClass.${name}`]}, as any class`}
                      autoComplete="off"
                      value={row[name]}
                      error={problem(name)}
                      onChange={(event) => props.onChange(row.unitClass, name, event.currentTarget.value)}
                    />
                  ))}
                </div>
              </fieldset>
            </details>
          </li>
        );
      })}
    </ul>
  );
}
