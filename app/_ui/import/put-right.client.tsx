"use client";

import { Button, TextInput } from "@mantine/core";
import { useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import type { WrongCell } from "./import-words.ts";
import { ProgressLine } from "./progress-line.client.tsx";
import { useReadAnew } from "./use-read-anew.client.ts";

/** The cells for which a row was refused, to be read as something else: the import is then read anew with that. */
export function PutRight({ importId, cells }: { readonly importId: string; readonly cells: readonly WrongCell[] }) {
  const [values, setValues] = useState<Readonly<Record<number, string>>>({});
  const { job, error, says, ask } = useReadAnew(importId);
  const read = ({ issue, value }: WrongCell) => ask("corrections", { issue, value: values[issue] ?? value });
  if (job !== null) return <ProgressLine {...says} />;
  return (
    <details className="put-right no-print">
      <summary>Put it right here</summary>
      {error !== null && <ErrorNote happened={error} kept="This import waits as before; what you typed stands here." />}
      {cells.map((cell) => (
        <form
          key={cell.issue}
          onSubmit={(event) => {
            event.preventDefault();
            void read(cell);
          }}
        >
          <TextInput
            label={`Line ${cell.line}, ${cell.column}`}
            value={values[cell.issue] ?? cell.value}
            autoComplete="off"
            onChange={(event) => setValues({ ...values, [cell.issue]: event.currentTarget.value })}
          />
          <Button type="submit" variant="default">
            Read it so
          </Button>
        </form>
      ))}
    </details>
  );
}
