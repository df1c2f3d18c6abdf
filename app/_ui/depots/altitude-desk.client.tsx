"use client";

import { Button, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState } from "react";
import { AskedChangeView } from "../asking/asked-change.client.tsx";
import { useAskedChange } from "../asking/use-asked-change.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { depotAddress } from "./address.ts";
import { keepAltitude, previewAltitude } from "./altitude-actions.ts";

/** A depot's altitude: the field, then which units it would move, then the change. */
export function AltitudeDesk(props: {
  readonly depot: string;
  /** As known, in metres; empty: not known. */
  readonly known: string;
  /** What a link from the history fills in; null: there is none. */
  readonly putBack: string | null;
  /** The version of what is told of it. */
  readonly seen: string | null;
  readonly job: string | null;
}) {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const { depot, known, seen } = props;
  const [altitude, setAltitude] = useState(props.putBack ?? known);
  // What was known when the form was last drawn, and what counts as untouched in it: after a save, what was saved.
  const [kept, setKept] = useState(known);
  const [base, setBase] = useState(known);
  const change = useAskedChange({
    look: previewAltitude,
    save: keepAltitude,
    running: props.job,
    onSaved: (_, ask) => {
      // What was sent counts as untouched; what was typed since does not.
      if (ask !== null) setBase(ask.altitude);
      router.replace(depotAddress(depot), { scroll: false });
    },
  });
  useRefusedField(form, change.begun);
  // What is known changed: a field that nobody touched follows it.
  if (kept !== known) {
    if (altitude === base) setAltitude(known);
    setKept(known);
    setBase(known);
  }
  const isUnchanged = altitude.trim() === known;
  return (
    <div className="asking">
      <ScriptedFields>
        {props.putBack !== null && !isUnchanged && (
          <p role="status">The altitude is filled in as it was before. It is not in force yet.</p>
        )}
        <form
          ref={form}
          className="house-form"
          onSubmit={(event) => {
            event.preventDefault();
            change.look({ depot, altitude, seen });
          }}
        >
          <div className="field-row">
            <TextInput
              label="Altitude, m"
              description="Above the sea, where engines are tested. Rows of tests that tell their own altitude or barometer keep it."
              inputWrapperOrder={["label", "input", "description", "error"]}
              inputMode="decimal"
              value={altitude}
              onChange={(event) => {
                setAltitude(event.currentTarget.value);
                change.leave();
              }}
              error={change.begun?.problems["altitude"]}
            />
          </div>
          <div className="form-buttons">
            <Button type="submit" variant="default" loading={change.busy} disabled={isUnchanged}>
              See what it changes
            </Button>
          </div>
        </form>
        <AskedChangeView
          change={change}
          savedBy="altitude"
          mayCancelSaving={false}
          note="The units tested there are assessed anew. The change is kept as an import, which can be undone."
          onLeave={() => {
            change.leave();
            setAltitude(known);
          }}
        />
      </ScriptedFields>
    </div>
  );
}
