"use client";

import { useFormats } from "../formats.client.tsx";
import type { FieldProblems } from "./field-problems.ts";

/** How many fields were not taken, told at once; the reasons stand beside them. */
export function RefusedFields({ problems }: { readonly problems: FieldProblems }) {
  const f = useFormats();
  const refused = Object.keys(problems).length;
  if (refused === 0) return null;
  return (
    <p role="alert" className="field-problem">
      {refused === 1
        ? "One field is not taken; the reason stands beside it."
        : `${f.number(refused)} fields are not taken; the reason stands beside each.`}
    </p>
  );
}
