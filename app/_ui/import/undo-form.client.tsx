"use client";

import { AskFirst } from "../asking/ask-first.client.tsx";
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
  const { job, says, error, begin } = useImportWork(props.job);
  if (job !== null) return <ProgressLine {...says} note={endsWhole.undo} />;
  return (
    <>
      {error !== null && <ErrorNote happened={error} kept="What was known before is unchanged." />}
      <AskFirst
        button={props.isForm ? "Undo this change" : "Undo this import"}
        question={props.question}
        yes="Undo it"
        no="Keep it"
        onYes={() => void begin(`/api/imports/${props.importId}/undo`)}
      >
        {props.isForm
          ? "What later changes told stays. The change keeps its place in the list of imports."
          : "Rows that later imports repeated stay. The import keeps its place in the list; its files can be read again."}
      </AskFirst>
    </>
  );
}
