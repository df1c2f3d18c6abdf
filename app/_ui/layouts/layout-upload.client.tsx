"use client";

import { Button, FileInput, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState, useTransition } from "react";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { askServer } from "../ask-server.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { layoutSavedAddress } from "./address.ts";
import { keepGivenLayout } from "./kept-actions.ts";
import { type KeptOutcome, nothingKept } from "./kept-outcome.ts";
import { meanwhileWords } from "./kept-words.ts";
import { largestLayoutFile } from "./limits.ts";

/** Keeps a layout that comes as a JSON file; `onto`: as the next version of that one, null: as a layout of its own. */
export function LayoutUpload({ onto }: { readonly onto: { readonly was: string; readonly after: number } | null }) {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [file, setFile] = useState<File | null>(null);
  const [name, setName] = useState(onto?.was ?? "");
  const [outcome, setOutcome] = useState<KeptOutcome>(nothingKept);
  const [pending, startTransition] = useTransition();
  useRefusedField(form, outcome);
  const choose = (chosen: File | null) => {
    setFile(chosen);
    setOutcome(nothingKept);
    if (name === "" && chosen !== null) setName(chosen.name.replace(/\.json$/i, "").slice(0, longestName));
  };
  const keep = () =>
    startTransition(async () => {
      const refuse = (why: string) => setOutcome({ ...nothingKept, problems: { file: why } });
      if (file === null) return refuse("Choose the file first.");
      if (file.size > largestLayoutFile) {
        return refuse("The file is too large for a layout. Choose one that was downloaded here.");
      }
      const text = await file.text();
      const answer = await askServer(
        () => keepGivenLayout({ name, text, onto }),
        (problem) => ({ ...nothingKept, problem }),
      );
      setOutcome(answer);
      if (answer.saved !== null) router.push(layoutSavedAddress(answer.saved));
    });
  return (
    <form
      ref={form}
      className="house-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <ScriptedFields>
        <div className="field-row">
          <FileInput
            label="Layout as JSON"
            description="As it was downloaded here."
            placeholder="Choose a file"
            accept=".json,application/json"
            value={file}
            onChange={choose}
            error={outcome.problems["file"]}
          />
          {onto === null && (
            <TextInput
              label="Keep it by the name"
              description="One that no other layout has."
              value={name}
              maxLength={longestName}
              autoComplete="off"
              error={outcome.problems["name"]}
              onChange={(event) => setName(event.currentTarget.value)}
            />
          )}
        </div>
        {outcome.problem !== null && <ErrorNote happened={outcome.problem} kept="Nothing was kept." />}
        {outcome.meanwhile !== null && <ErrorNote {...meanwhileWords(outcome.meanwhile.by)} />}
        <div className="form-buttons">
          <Button type="submit" variant="default" loading={pending}>
            {onto === null ? "Keep the layout" : "Keep it as the next version"}
          </Button>
        </div>
      </ScriptedFields>
    </form>
  );
}
