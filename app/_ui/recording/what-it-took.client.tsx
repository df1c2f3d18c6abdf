"use client";

import type { ReactNode } from "react";
import type { TookFields } from "./fields.ts";
import { Figure, type FormState, Words } from "./typed-field.client.tsx";

/** The work of a repair or a swap and its price. */
export function WhatItTook({ of, children }: { readonly of: FormState<TookFields>; readonly children?: ReactNode }) {
  return (
    <fieldset>
      <legend>What it took</legend>
      <div className="field-row">
        <Figure of={of} name="labourHours" label="Labour, hours" />
        <Figure
          of={of}
          name="cost"
          label="Cost"
          help="Labour, parts and machining, in the fleet’s currency; not what the days out of service cost."
        />
        <Figure of={of} name="downtimeDays" label="Out of service, days" />
      </div>
      <Words of={of} name="remarks" label="Remarks" long />
      {children}
    </fieldset>
  );
}
