"use client";

import { Button, TextInput } from "@mantine/core";
import { createContext, type ReactNode, useContext, useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import type { WrongCell } from "./import-words.ts";
import { ProgressLine } from "./progress-line.client.tsx";
import { asked, type TypedCells } from "./typed-cells.ts";
import { useReadAnew } from "./use-read-anew.client.ts";

interface Typing extends Pick<ReturnType<typeof useReadAnew>, "job" | "error" | "says"> {
  readonly typed: TypedCells;
  /** The issue at which was pressed last; null: none. */
  readonly pressed: number | null;
  readonly type: (cell: WrongCell, value: string) => void;
  readonly read: (cell: WrongCell) => void;
}

const TypingContext = createContext<Typing | null>(null);

/** Holds what is typed in all rows of a list: reading the files anew shows other rows, and would lose what is not sent. */
export function PuttingRight({ importId, children }: { readonly importId: string; readonly children: ReactNode }) {
  const [typed, setTyped] = useState<TypedCells>(new Map());
  const [pressed, setPressed] = useState<number | null>(null);
  const { job, error, says, ask } = useReadAnew(importId);
  const type = (cell: WrongCell, value: string) =>
    setTyped((before) => new Map(before).set(cell.issue, { cell, value }));
  const read = (cell: WrongCell) => {
    setPressed(cell.issue);
    void ask("corrections", asked(cell, typed));
  };
  return <TypingContext value={{ typed, pressed, type, read, job, error, says }}>{children}</TypingContext>;
}

/** The cells for which a row was refused, to be read as something else: the import is then read anew with that. */
export function PutRight({ cells }: { readonly cells: readonly WrongCell[] }) {
  const all = useContext(TypingContext);
  if (all === null) throw new Error("PutRight stands in PuttingRight.");
  const isHere = cells.some(({ issue }) => issue === all.pressed);
  if (all.job !== null && isHere) return <ProgressLine {...all.says} />;
  return (
    <details className="put-right no-print" open={isHere || undefined}>
      <summary>Put it right here</summary>
      {all.error !== null && isHere && (
        <ErrorNote happened={all.error} kept="This import waits as before; what you typed stands here." />
      )}
      {cells.map((cell) => (
        <form
          key={cell.issue}
          onSubmit={(event) => {
            event.preventDefault();
            all.read(cell);
          }}
        >
          <TextInput
            label={`Line ${cell.line}, ${cell.column}`}
            value={all.typed.get(cell.issue)?.value ?? cell.value}
            autoComplete="off"
            // What was typed after a press would not be read with it.
            readOnly={all.job !== null}
            onChange={(event) => all.type(cell, event.currentTarget.value)}
          />
          <Button type="submit" variant="default" disabled={all.job !== null}>
            Read it so
          </Button>
        </form>
      ))}
      <p className="second small">All that is typed on this page in such fields is read at once.</p>
    </details>
  );
}
