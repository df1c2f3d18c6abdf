"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState } from "react";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { AppLink } from "../app-link.client.tsx";
import { AskedChangeView } from "../asking/asked-change.client.tsx";
import { useAskedChange } from "../asking/use-asked-change.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { modelAddress, modelSavedAddress } from "./address.ts";
import { type AskedModel, previewModel, saveModel } from "./model-actions.ts";
import type { ModelDraft } from "./model-draft.ts";
import { ModelFieldsets } from "./model-fieldsets.client.tsx";

/**
 * An engine model as a form: fields, then what they would change, then the change itself under the viewer's name. What
 * was typed stays until it is kept. `seen`: the model as it stands; null: a new one.
 */
export function ModelDesk(props: {
  readonly draft: ModelDraft;
  readonly seen: EngineModel | null;
  readonly name: string;
}) {
  const { seen } = props;
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [draft, setDraft] = useState(props.draft);
  const change = useAskedChange<AskedModel>({
    look: previewModel,
    save: saveModel,
    running: null,
    onSaved: (result, ask) => {
      // What the job that saves a model gives.
      const { import: importId } = result as { readonly import: string };
      // No change of a model runs when its page comes, so there was an asking.
      router.push(modelSavedAddress((ask?.draft ?? draft).fields.id.trim(), importId));
    },
  });
  useRefusedField(form, change.begun);

  return (
    <div className="model-desk">
      <ScriptedFields>
        <form
          ref={form}
          className="house-form model-form"
          aria-busy={change.busy}
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            change.look({ draft, seen });
          }}
        >
          <ModelFieldsets
            draft={draft}
            problems={change.begun?.problems ?? {}}
            isNew={seen === null}
            onChange={(next) => {
              setDraft(next);
              change.leave();
            }}
          />
          <div className="form-buttons">
            <Button type="submit" loading={change.busy}>
              See what would change
            </Button>
            <AppLink href={seen === null ? "/models" : modelAddress(seen.id)} variant="button">
              Leave it
            </AppLink>
            <p className="second">Nothing is kept yet.</p>
          </div>
        </form>
        <AskedChangeView
          change={change}
          savedBy="save"
          mayCancelSaving={false}
          note={`Kept with your name, ${props.name}; it can be undone.`}
          save={seen === null ? "Add it" : "Keep the change"}
          leave="Back to the fields"
          onLeave={() => {
            change.leave();
            form.current?.querySelector("input")?.focus();
          }}
        />
      </ScriptedFields>
    </div>
  );
}
