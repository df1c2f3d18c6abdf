"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { type ReactNode, useRef } from "react";
import { AskedChangeView } from "../asking/asked-change.client.tsx";
import type { FieldProblems } from "../asking/field-problems.ts";
import { useAskedChange } from "../asking/use-asked-change.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { NeedsScript } from "../needs-script.tsx";
import { keepRecord, lookAtRecord } from "./record-actions.ts";
import type { AskedRecord, RecordFields } from "./record-fields.ts";

/**
 * A form of this folder from its fields to the kept record: what it would change is shown before it is kept, unless that is
 * little. What was typed stays until it is kept.
 */
export function RecordDesk(props: {
  readonly unit: string;
  readonly fields: RecordFields;
  /** What the button says. */
  readonly button: string;
  /** The page to show once it is kept, by the import that it is kept as. */
  readonly keptAddress: (importId: string) => string;
  /** What is left to do once it is kept, before that page is shown. */
  readonly afterwards?: (importId: string) => Promise<boolean>;
  /** The fields. `leave`: what was looked at does not hold any more. */
  readonly children: (ask: { readonly problems: FieldProblems; readonly leave: () => void }) => ReactNode;
}) {
  const { unit, fields } = props;
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const change = useAskedChange<AskedRecord>({
    look: lookAtRecord,
    save: keepRecord,
    running: null,
    onSaved: async (result) => {
      // What the job that keeps a record gives.
      const { import: importId } = result as { readonly import: string };
      if ((await props.afterwards?.(importId)) === false) return;
      router.push(props.keptAddress(importId));
    },
  });
  useRefusedField(form, change.begun);
  // Between a press and its answer a second press must find nothing to press.
  const look = () => {
    if (!change.busy) change.look({ unit, fields });
  };
  return (
    <div className="record-desk">
      <NeedsScript />
      <form
        ref={form}
        className="house-form"
        aria-busy={change.busy}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          look();
        }}
      >
        {props.children({ problems: change.begun?.problems ?? {}, leave: change.leave })}
        <div className="form-buttons">
          <Button type="submit" variant="default" loading={change.busy}>
            {props.button}
          </Button>
        </div>
      </form>
      <AskedChangeView
        change={change}
        savedBy="save"
        mayCancelSaving={false}
        note="Kept with your name as an import, which can be undone."
        save="Keep it"
        leave="Go on typing"
        onLeave={change.leave}
      />
    </div>
  );
}
