"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useId, useRef, useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import { callApi } from "./call-api.client.ts";
import { ProgressLine } from "./progress-line.tsx";
import { progressWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

/** Undoes a committed import after saying what goes. `job`: an undo or a commit of it that runs already. */
export function UndoForm(props: {
  readonly importId: string;
  readonly question: string;
  readonly repeats: readonly string[];
  readonly job: string | null;
}) {
  const router = useRouter();
  const titleId = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  const [job, setJob] = useState(props.job);
  const [error, setError] = useState<string | null>(null);
  const view = useJob(job, (ended) => {
    if (ended?.state === "failed") setError(ended.error);
    setJob(null);
    router.refresh();
    // The button that had the focus is gone; what became of the import is read from the top.
    document.getElementById("main")?.focus();
  });
  const undo = async () => {
    dialog.current?.close();
    setError(null);
    const begun = await callApi<{ job: string }>("POST", `/api/imports/${props.importId}/undo`);
    if (begun.ok) return setJob(begun.value.job);
    setError(begun.error);
    router.refresh();
  };
  if (job !== null) return <ProgressLine {...progressWords(view?.progress ?? null)} />;
  return (
    <>
      {error !== null && <ErrorNote happened={error} kept="What was known before is unchanged." />}
      <Button variant="default" onClick={() => dialog.current?.showModal()}>
        Undo this import
      </Button>
      <dialog ref={dialog} className="ask" aria-labelledby={titleId}>
        <h2 id={titleId}>{props.question}</h2>
        {props.repeats.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        <p>What the import said stays in the list of imports; its files can be read again.</p>
        <div className="form-buttons">
          <Button onClick={() => void undo()}>Undo it</Button>
          <Button variant="default" onClick={() => dialog.current?.close()}>
            Keep it
          </Button>
        </div>
      </dialog>
    </>
  );
}
