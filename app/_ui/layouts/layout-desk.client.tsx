"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState, useTransition } from "react";
import type { Layout } from "../../../lib/layout/layout.ts";
import { askServer } from "../ask-server.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { layoutSavedAddress } from "./address.ts";
import { saveKeptLayout } from "./kept-actions.ts";
import { type KeptOutcome, nothingKept } from "./kept-outcome.ts";
import { meanwhileWords } from "./kept-words.ts";
import { LayoutColumns } from "./layout-columns.client.tsx";
import { LayoutFileValues } from "./layout-file-values.client.tsx";
import { LayoutName, LayoutProblems } from "./layout-name.client.tsx";

/** A kept layout to be changed; what is saved is its next version. `after`: the version that it begins with. */
export function LayoutDesk(props: { readonly was: string; readonly after: number; readonly layout: Layout }) {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [layout, setLayout] = useState(props.layout);
  const [name, setName] = useState(props.was);
  const [outcome, setOutcome] = useState<KeptOutcome>(nothingKept);
  const [pending, startTransition] = useTransition();
  useRefusedField(form, outcome);
  const save = () =>
    startTransition(async () => {
      const answer = await askServer(
        () => saveKeptLayout({ was: props.was, after: props.after, name, layout }),
        (problem) => ({ ...nothingKept, problem }),
      );
      setOutcome(answer);
      if (answer.saved !== null) router.push(layoutSavedAddress(answer.saved));
    });
  return (
    <form
      ref={form}
      className="house-form layout-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <ScriptedFields>
        <LayoutName
          legend="Its name"
          label="Name"
          description="Its versions and the imports that were read by it stay with it under another name."
          name={name}
          problem={outcome.problems["name"]}
          onChange={setName}
        />
        <LayoutColumns layout={layout} shown={null} problems={outcome.problems} onChange={setLayout} />
        <LayoutFileValues layout={layout} problems={outcome.problems} onChange={setLayout} />
        <LayoutProblems problems={outcome.problems} gaps={outcome.gaps} />
        {outcome.problem !== null && <ErrorNote happened={outcome.problem} kept="Nothing was kept." />}
        {outcome.meanwhile !== null && <ErrorNote {...meanwhileWords(outcome.meanwhile.by)} />}
        <div className="form-buttons">
          <Button type="submit" loading={pending}>
            Keep it so
          </Button>
          <p className="second">
            Holds for files that come from now on; imports that were read before stay as they are.
          </p>
        </div>
      </ScriptedFields>
    </form>
  );
}
