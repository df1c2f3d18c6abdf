"use client";

import type { ReactNode } from "react";
import { ErrorNote } from "../error-note.tsx";
import { useServerForm } from "../use-server-form.client.ts";
import { changeNote } from "./note-actions.ts";

/** Withdraws a note, or puts it back. Works without script. */
export function NoteChange(props: {
  readonly unit: string;
  readonly note: number;
  readonly withdrawn: boolean;
  /** What the button says beyond what it does, for a screen reader. */
  readonly children: ReactNode;
}) {
  const { unit, note, withdrawn } = props;
  const {
    answer: problem,
    form,
    pending,
  } = useServerForm<string | null>(changeNote, null, (_, __, unreached) => unreached);
  return (
    <form {...form} className="no-print" aria-busy={pending}>
      <input type="hidden" name="unit" value={unit} />
      <input type="hidden" name="note" value={note} />
      <input type="hidden" name="withdrawn" value={withdrawn ? "no" : "yes"} />
      <button type="submit" className="note-change" disabled={pending}>
        {withdrawn ? "Put back" : "Withdraw"}
        {props.children}
      </button>
      {problem !== null && <ErrorNote happened={problem} kept="The note is as it was." />}
    </form>
  );
}
