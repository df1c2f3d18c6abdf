"use client";

import { useRouter } from "next/navigation";
import { useRef, useState } from "react";
import { AskedChangeView } from "../asking/asked-change.client.tsx";
import { useAskedChange } from "../asking/use-asked-change.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { previewSettings, saveSettings } from "./settings-actions.ts";
import { changedFields } from "./settings-fields.ts";
import { SettingsFieldsets } from "./settings-fieldsets.client.tsx";
import type { SettingsFields } from "./settings-form.ts";

/**
 * The settings: fields, then what they would change, then the change itself. What was typed stays until it is in force.
 * `job`: a change of the settings that runs already.
 */
export function SettingsDesk(props: {
  /** The settings in force, and the version that they are of. */
  readonly fields: SettingsFields;
  readonly version: number;
  /** What a link from the history puts into the fields, and how that is told; null: there is none. */
  readonly putBack: { readonly fields: Partial<SettingsFields>; readonly says: string } | null;
  readonly defaults: SettingsFields;
  readonly timeZones: readonly string[];
  readonly job: string | null;
}) {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [fields, setFields] = useState<SettingsFields>({ ...props.fields, ...props.putBack?.fields });
  // What was in force when the form was last drawn, and what counts as untouched in it: after a save, what was saved.
  const [kept, setKept] = useState(props.fields);
  const [base, setBase] = useState(props.fields);
  const change = useAskedChange({
    look: previewSettings,
    save: saveSettings,
    running: props.job,
    onSaved: (_, ask) => {
      // What was sent counts as untouched: those fields follow what is in force, others stay as they were typed since.
      if (ask !== null) setBase({ ...base, ...ask.changed });
      router.replace("/settings", { scroll: false });
    },
  });
  useRefusedField(form, change.begun);
  // What is in force changed: fields that nobody touched here follow it, the others stay as they were typed.
  if (JSON.stringify(kept) !== JSON.stringify(props.fields)) {
    setFields({ ...props.fields, ...changedFields(fields, base) });
    setKept(props.fields);
    setBase(props.fields);
  }
  const changed = changedFields(fields, props.fields);
  const isUnchanged = Object.keys(changed).length === 0;
  const isOfTests = Object.keys(changed).some((name) => name.startsWith("testInterval"));
  return (
    <div className="asking">
      <ScriptedFields>
        {props.putBack !== null && !isUnchanged && <p role="status">{props.putBack.says}</p>}
        <form
          ref={form}
          className="house-form"
          onSubmit={(event) => {
            event.preventDefault();
            change.look({ changed, version: props.version });
          }}
        >
          <SettingsFieldsets
            fields={fields}
            inForce={props.fields}
            defaults={props.defaults}
            timeZones={props.timeZones}
            problems={change.begun?.problems ?? {}}
            busy={change.busy}
            unchanged={isUnchanged}
            onChange={(more) => {
              setFields({ ...fields, ...more });
              change.leave();
            }}
          />
        </form>
        <AskedChangeView
          change={change}
          savedBy="settings"
          mayCancelSaving
          note={`All units are assessed anew; the history can put back what was.${isOfTests ? " When tests are due, and which are overdue, follows the new interval." : ""}`}
          onLeave={() => {
            change.leave();
            setFields(props.fields);
          }}
        />
      </ScriptedFields>
    </div>
  );
}
