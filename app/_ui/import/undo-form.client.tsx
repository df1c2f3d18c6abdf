"use client";

import { Button } from "@mantine/core";
import { useId, useRef } from "react";
import { ErrorNote } from "../error-note.tsx";
import { endsWhole, ProgressLine } from "./progress-line.client.tsx";
import { useImportWork } from "./use-import-work.client.ts";

/** Undoes a committed import after saying what goes. `job`: an undo or a commit of it that runs already. */
export function UndoForm(props: {
  readonly importId: string;
  readonly question: string;
  /** It was made on a page, not read from files. */
  readonly isForm?: boolean;
  readonly job: string | null;
}) {
  const titleId = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  const { job, says, error, begin } = useImportWork(props.job);
  const undo = () => {
    dialog.current?.close();
    return begin(`/api/imports/${props.importId}/undo`);
  };
  if (job !== null) return <ProgressLine {...says} note={endsWhole.undo} />;
  return (
    <>
      {error !== null && <ErrorNote happened={error} kept="What was known before is unchanged." />}
      <Button variant="default" onClick={() => dialog.current?.showModal()}>
        {props.isForm ? "Undo this change" : "Undo this import"}
      </Button>
      <dialog ref={dialog} className="ask" aria-labelledby={titleId}>
        <h2 id={titleId}>{props.question}</h2>
        <p>
          {props.isForm
            ? "What later changes told stays. The change keeps its place in the list of imports."
            : "Rows that later imports repeated stay. The import keeps its place in the list; its files can be read again."}
        </p>
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
