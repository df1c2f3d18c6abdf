"use client";

import { Button, TextInput } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import { callApi } from "./call-api.client.ts";
import type { WrongCell } from "./import-words.ts";
import { ProgressLine } from "./progress-line.client.tsx";
import { progressWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

/** The cells for which a row was refused, to be read as something else: the import is then read anew with that. */
export function PutRight({ importId, cells }: { readonly importId: string; readonly cells: readonly WrongCell[] }) {
  const router = useRouter();
  const [values, setValues] = useState<Readonly<Record<number, string>>>({});
  const [job, setJob] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const view = useJob(job, (ended) => {
    setJob(null);
    if (ended?.state === "done") return router.push(`/import/${(ended.result as { import: string }).import}`);
    setError(ended?.error ?? "What became of it is not known. The list on the Import page says.");
    router.refresh();
  });
  const read = async ({ issue, value }: WrongCell) => {
    setError(null);
    const asked = { issue, value: values[issue] ?? value };
    const begun = await callApi<{ job: string }>("POST", `/api/imports/${importId}/corrections`, asked);
    if (begun.ok) setJob(begun.value.job);
    else setError(begun.error);
  };
  if (job !== null) return <ProgressLine {...progressWords(view?.progress ?? null)} />;
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
