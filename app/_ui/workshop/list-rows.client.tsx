"use client";

import { Button, TextInput } from "@mantine/core";
import { useEffect, useRef, useState } from "react";
import type { FieldProblems } from "../asking/field-problems.ts";
import { cellsOf, type ListName, listSets } from "./list-sets.ts";

type Row = { readonly key: number } & Readonly<Record<string, string | number>>;

/** A list of rows that people add, fill in and remove; after either the keyboard goes on beside where it was. */
export function ListRows(props: {
  readonly list: ListName;
  readonly rows: readonly Row[];
  readonly problems: FieldProblems;
  readonly onCell: (key: number, name: string, value: string) => void;
  readonly onAdd: () => void;
  readonly onRemove: (key: number) => void;
}) {
  const { list, rows, problems } = props;
  const { legend, says, row: rowName, none, add } = listSets[list];
  const box = useRef<HTMLFieldSetElement>(null);
  const [focus, setFocus] = useState<"last" | number | null>(null);
  useEffect(() => {
    if (focus === null) return;
    const buttons = box.current?.querySelectorAll<HTMLElement>(".row-remove, .row-add");
    const last = box.current?.querySelector<HTMLElement>("li:last-child input");
    if (focus === "last") last?.focus();
    else buttons?.[Math.min(focus, buttons.length - 1)]?.focus();
    setFocus(null);
  }, [focus]);
  return (
    <fieldset ref={box}>
      <legend>{legend}</legend>
      <p className="second">{says}</p>
      {rows.length === 0 && <p>{none}</p>}
      {rows.length > 0 && (
        <ol className="form-list">
          {rows.map((row, i) => (
            <li key={row.key}>
              <fieldset className="list-row">
                <legend>
                  {rowName} {i + 1}
                </legend>
                {cellsOf(list).map(({ name, label, unit, help, kind, empty }) => (
                  <TextInput
                    key={name}
                    label={unit === undefined ? label : `${label}, ${unit}`}
                    inputWrapperOrder={["label", "input", "description", "error"]}
                    {...(help === undefined ? {} : { description: help })}
                    {...(kind === "date" ? { type: "date" } : {})}
                    {...(kind === undefined ? { inputMode: "decimal" as const } : {})}
                    {...(kind === "depot" || kind === "model" ? { list: `known-${kind}` } : {})}
                    {...(empty === undefined ? {} : { placeholder: empty })}
                    autoComplete="off"
                    className={`cell-${name}`}
                    value={String(row[name])}
                    error={problems[`${list}.${i}.${name}`]}
                    onChange={(event) => props.onCell(row.key, name, event.currentTarget.value)}
                  />
                ))}
                <Button
                  variant="default"
                  className="row-remove"
                  onClick={() => {
                    props.onRemove(row.key);
                    setFocus(i);
                  }}
                  aria-label={`Remove ${rowName.toLowerCase()} ${i + 1}`}
                >
                  Remove
                </Button>
              </fieldset>
            </li>
          ))}
        </ol>
      )}
      <div className="form-buttons">
        <Button
          variant="default"
          className="row-add"
          onClick={() => {
            props.onAdd();
            setFocus("last");
          }}
        >
          {add}
        </Button>
      </div>
    </fieldset>
  );
}
