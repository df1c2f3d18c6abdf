"use client";

import { type ReactNode, useEffect, useRef } from "react";
import { ErrorNote } from "../error-note.tsx";
import { progressWords } from "../import/progress-words.ts";
import { JobLine } from "./job-line.client.tsx";
import { PreviewSheet } from "./preview-sheet.client.tsx";
import { RefusedFields } from "./refused-fields.client.tsx";
import type { AskedChange } from "./use-asked-change.client.ts";

/** What a form that asks before it saves shows below its fields: why not, how far, what would change, how it ended. */
export function AskedChangeView(props: {
  readonly change: AskedChange;
  /** The kind of the job that saves, for the words of its progress. */
  readonly savedBy: string;
  /** Whether saving can be ended on its way. */
  readonly mayCancelSaving: boolean;
  /** Said below what would change. */
  readonly note: ReactNode;
  readonly onLeave: () => void;
  /** What the two buttons below it say. */
  readonly save?: string;
  readonly leave?: string;
}) {
  const { begun, lookedAt, ended, job, kind, progress, save } = props.change;
  const told = useRef<HTMLDivElement>(null);
  // What was pressed last, to cancel or to save, is gone with the line that it stood in.
  useEffect(() => {
    const isTold = ended !== null || begun?.problem != null;
    if (isTold && document.activeElement === document.body) told.current?.focus();
  }, [ended, begun]);
  return (
    <>
      <RefusedFields problems={begun?.problems ?? {}} />
      <div ref={told} tabIndex={-1}>
        {begun?.problem && <ErrorNote happened={begun.problem} kept="What is in force is as it was." />}
        {ended !== null && (ended.failed ? <ErrorNote happened={ended.says} /> : <p role="status">{ended.says}</p>)}
      </div>
      {begun?.meanwhile && (
        <ErrorNote
          happened={`${begun.meanwhile} changed this while you wrote; nothing was saved over it.`}
          kept="Fields that you did not touch show what is in force now; yours stand as you typed them."
          todo="Look at them, and ask again."
        />
      )}
      {job !== null && (
        <JobLine
          {...progressWords(progress, kind === "preview" ? "preview" : props.savedBy)}
          {...(kind === "preview" || props.mayCancelSaving ? { cancels: job } : {})}
        />
      )}
      {lookedAt !== null && (
        <PreviewSheet
          preview={lookedAt.preview}
          reads={lookedAt.reads}
          note={props.note}
          onSave={save}
          onLeave={props.onLeave}
          save={props.save ?? "Put it in force"}
          leave={props.leave ?? "Leave it as it is"}
        />
      )}
    </>
  );
}
