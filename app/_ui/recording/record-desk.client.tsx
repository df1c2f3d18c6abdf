"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { type ReactNode, useRef, useState } from "react";
import { AskedChangeView } from "../asking/asked-change.client.tsx";
import { useAskedChange } from "../asking/use-asked-change.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { useUnkept } from "../asking/use-unkept.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { keptAtOnce } from "./address.ts";
import { keepRecord, lookAtRecord } from "./record-actions.ts";
import type { RecordFields } from "./record-fields.ts";
import type { FormState } from "./typed-field.client.tsx";

/**
 * A form of this folder from its fields to the kept record: what it would change is shown before it is kept, unless that is
 * little. What was typed stays until it is kept.
 */
export function RecordDesk<F extends RecordFields>(props: {
  readonly unit: string;
  /** The fields before anything is typed. */
  readonly blank: F;
  /** Fields that nobody types, as the page has them now. */
  readonly given?: Partial<F>;
  /** The page of the form, which shows what was kept. */
  readonly address: string;
  /** Another page, where what was kept has one of its own. */
  readonly keptAddress?: (kept: F) => string;
  /** What is left to do once it is kept, before that page is shown. */
  readonly afterwards?: (kept: F) => Promise<boolean>;
  /** The fields as they are drawn. */
  readonly children: (of: FormState<F>) => ReactNode;
}) {
  const { unit } = props;
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [typed, setTyped] = useState(props.blank);
  const [kept, setKept] = useState(props.blank);
  const fields = { ...typed, ...props.given };
  // What nobody types may come anew with the page, and is no loss.
  useUnkept(JSON.stringify(fields) !== JSON.stringify({ ...kept, ...props.given }));
  const change = useAskedChange<{ readonly unit: string; readonly fields: F }>({
    look: lookAtRecord,
    save: keepRecord,
    running: null,
    onSaved: async (result, asked) => {
      // What the job that keeps a record gives.
      const { import: importId } = result as { readonly import: string };
      if (asked !== null) setKept(asked.fields);
      if (asked !== null && (await props.afterwards?.(asked.fields)) === false) return;
      const address = asked === null ? props.address : (props.keptAddress?.(asked.fields) ?? props.address);
      router.push(`${address}&kept=${importId}`);
    },
  });
  useRefusedField(form, change.begun);
  // Between a press and its answer a second press must find nothing to press.
  const look = () => {
    if (!change.busy) change.look({ unit, fields });
  };
  const set = (more: Partial<F>) => {
    setTyped((before) => ({ ...before, ...more }));
    // What was looked at does not hold any more.
    change.leave();
  };
  return (
    <div className="record-desk">
      <ScriptedFields>
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
          {props.children({ fields, set, problems: change.begun?.problems ?? {} })}
          <div className="form-buttons">
            <Button type="submit" variant="default" loading={change.busy}>
              {keptAtOnce.has(fields.what) ? "Keep it" : "See what it changes"}
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
      </ScriptedFields>
    </div>
  );
}
