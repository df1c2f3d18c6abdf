"use client";

import { TextInput } from "@mantine/core";
import { longestName } from "../../../lib/schema/longest-name.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { RefusedFields } from "../asking/refused-fields.client.tsx";

/** Under which name a layout is kept. */
export function LayoutName(props: {
  readonly legend: string;
  readonly label: string;
  readonly description: string;
  readonly name: string;
  readonly problem: string | undefined;
  readonly onChange: (name: string) => void;
}) {
  return (
    <fieldset>
      <legend>{props.legend}</legend>
      <TextInput
        label={props.label}
        description={props.description}
        value={props.name}
        maxLength={longestName}
        error={props.problem}
        autoComplete="off"
        onChange={(event) => props.onChange(event.currentTarget.value)}
      />
    </fieldset>
  );
}

/** Why a layout is not taken: what stands beside its fields, and what it does not tell yet. */
export function LayoutProblems(props: { readonly problems: FieldProblems; readonly gaps: readonly string[] }) {
  return (
    <>
      <RefusedFields problems={props.problems} />
      {props.gaps.length > 0 && (
        <div role="alert" className="field-problem">
          <p>Rows cannot be read so yet:</p>
          <ul>
            {props.gaps.map((gap) => (
              <li key={gap}>{gap}</li>
            ))}
          </ul>
        </div>
      )}
    </>
  );
}
