"use client";

import { Button, FileInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState, useTransition } from "react";
import { askServer } from "../ask-server.client.ts";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { useFormats } from "../formats.client.tsx";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { FileChanges } from "./file-changes.tsx";
import { keepWorkshopFile, lookAtWorkshopFile } from "./workshop-actions.ts";
import { type LookedAtFile, largestWorkshopFile, nothingKept, type WorkshopOutcome } from "./workshop-outcome.ts";

interface Looked {
  readonly text: string;
  readonly file: LookedAtFile;
}

/** Loads a file of prices and workshops: what it would change is shown, and kept on a second press. */
export function WorkshopUpload() {
  const f = useFormats();
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [file, setFile] = useState<File | null>(null);
  const [looked, setLooked] = useState<Looked | null>(null);
  const [outcome, setOutcome] = useState<WorkshopOutcome>(nothingKept);
  const [pending, startTransition] = useTransition();
  useRefusedField(form, outcome);
  const choose = (chosen: File | null) => {
    setFile(chosen);
    setLooked(null);
    setOutcome(nothingKept);
  };
  const look = () =>
    startTransition(async () => {
      const refuse = (why: string) => setOutcome({ ...nothingKept, problems: { file: why } });
      if (file === null) return refuse("Choose the file first.");
      if (file.size > largestWorkshopFile) {
        return refuse("The file is too large for prices and workshops. Choose one that was downloaded here.");
      }
      const text = await file.text();
      const told = await askServer(
        () => lookAtWorkshopFile(text),
        (problem) => ({ problem, changes: [], pins: 0, seen: { after: 0, depots: [] } }),
      );
      setOutcome(told.problem === null ? nothingKept : { ...nothingKept, problem: told.problem });
      setLooked(told.problem === null ? { text, file: told } : null);
    });
  const keep = ({ text, file: told }: Looked) =>
    startTransition(async () => {
      const answer = await askServer(
        () => keepWorkshopFile(text, told.seen),
        (problem) => ({ ...nothingKept, problem }),
      );
      setOutcome(answer);
      if (answer.saved !== null || answer.meanwhile !== null) setLooked(null);
      router.refresh();
    });
  const pins = looked?.file.pins ?? 0;
  return (
    <form
      ref={form}
      className="house-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        look();
      }}
    >
      <ScriptedFields>
        <div className="field-row upload-row">
          <FileInput
            label="Prices and workshops as JSON"
            description="As it was downloaded here, or as borecast export wrote it: workshop.json."
            placeholder="Choose a file"
            accept=".json,application/json"
            value={file}
            onChange={choose}
            error={outcome.problems["file"]}
          />
        </div>
        {outcome.problem !== null && <ErrorNote happened={outcome.problem} kept="Nothing was kept." />}
        {outcome.meanwhile !== null && (
          <ErrorNote
            happened={`${outcome.meanwhile.by} changed prices, or a depot of the file, meanwhile; nothing was kept.`}
            todo="Look at the file again: it shows what it would change now."
          />
        )}
        {looked !== null && (
          <div className="preview-sheet">
            <FileChanges changes={looked.file.changes} />
            {pins > 0 && (
              <p className="second">
                {f.number(pins)} pinned {pins === 1 ? "repair" : "repairs"} of the file {pins === 1 ? "is" : "are"} left
                out: they are choices of the plan.
              </p>
            )}
            {looked.file.changes.length > 0 && (
              <div className="form-buttons">
                <Button loading={pending} onClick={() => keep(looked)}>
                  Keep the file
                </Button>
                <Button variant="default" onClick={() => choose(null)}>
                  Leave it as it is
                </Button>
              </div>
            )}
          </div>
        )}
        <div className="form-buttons">
          <Button type="submit" variant="default" loading={pending && looked === null}>
            See what it changes
          </Button>
          <p role="status" className="second">
            {outcome.saved === null ? "Nothing is kept before you have seen it." : "Kept: the form shows the file."}
          </p>
        </div>
      </ScriptedFields>
    </form>
  );
}
