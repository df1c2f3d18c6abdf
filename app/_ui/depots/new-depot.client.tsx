"use client";

import { Button, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useRef, useState, useTransition } from "react";
import { askServer } from "../ask-server.client.ts";
import { type Begun, notBegun } from "../asking/begun.ts";
import { JobLine } from "../asking/job-line.client.tsx";
import { RefusedFields } from "../asking/refused-fields.client.tsx";
import { useRefusedField } from "../asking/use-refused-field.client.ts";
import { ErrorNote } from "../error-note.tsx";
import { progressWords } from "../import/progress-words.ts";
import { useJob } from "../import/use-job.client.ts";
import { ScriptedFields } from "../scripted-fields.client.tsx";
import { depotAddress } from "./address.ts";
import { addDepot } from "./altitude-actions.ts";

/** Adds a depot before any file names it, and leads to its page. */
export function NewDepotForm() {
  const router = useRouter();
  const form = useRef<HTMLFormElement>(null);
  const [depot, setDepot] = useState("");
  const [altitude, setAltitude] = useState("");
  const [begun, setBegun] = useState<Begun | null>(null);
  const [adding, setAdding] = useState<{ readonly job: string; readonly depot: string } | null>(null);
  const [failed, setFailed] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  useRefusedField(form, begun);
  const view = useJob(adding?.job ?? null, (ended) => {
    setAdding(null);
    if (ended?.state === "done" && adding !== null) return router.push(depotAddress(adding.depot));
    setFailed(ended?.error ?? "What became of it is not known; the list above tells.");
    router.refresh();
  });
  const add = () =>
    startTransition(async () => {
      setFailed(null);
      const answer = await askServer(
        () => addDepot({ depot, altitude }),
        (problem) => ({ ...notBegun, problem }),
      );
      setBegun(answer);
      if (answer.job !== null) setAdding({ job: answer.job, depot: depot.trim() });
    });
  return (
    <form
      ref={form}
      className="house-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <ScriptedFields>
        <div className="field-row">
          <TextInput
            label="Name"
            description="As files name it, letter by letter."
            value={depot}
            onChange={(event) => setDepot(event.currentTarget.value)}
            error={begun?.problems["depot"]}
          />
          <TextInput
            label="Altitude, m"
            description="Above the sea; leave it empty where it is not known."
            inputMode="decimal"
            value={altitude}
            onChange={(event) => setAltitude(event.currentTarget.value)}
            error={begun?.problems["altitude"]}
          />
        </div>
        <RefusedFields problems={begun?.problems ?? {}} />
        {begun?.problem && <ErrorNote happened={begun.problem} kept="Nothing was added." />}
        {failed !== null && <ErrorNote happened={failed} />}
        {adding !== null && <JobLine {...progressWords(view?.progress ?? null, "save")} />}
        <div className="form-buttons">
          <Button type="submit" variant="default" loading={pending || adding !== null}>
            Add the depot
          </Button>
          <p className="second">Kept with your name as an import, which can be undone.</p>
        </div>
      </ScriptedFields>
    </form>
  );
}
