"use client";

import { Button, NativeSelect } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState } from "react";
import { delimiterNames, encodings, type ReadAs, type ReadingChoice } from "../../../lib/schema/reading.ts";
import { ErrorNote } from "../error-note.tsx";
import { callApi } from "./call-api.client.ts";
import { ProgressLine } from "./progress-line.client.tsx";
import { progressWords } from "./progress-words.ts";
import { delimiterTitles, encodingTitles } from "./reading-words.ts";
import { useJob } from "./use-job.client.ts";

interface FileRead {
  readonly name: string;
  readonly readAs: ReadAs;
}

/** How the files of a waiting import were read, to be said otherwise: the import is then made anew from the kept files. */
export function ReadAgain({ importId, files }: { readonly importId: string; readonly files: readonly FileRead[] }) {
  const router = useRouter();
  const [choices, setChoices] = useState<Readonly<Record<string, ReadingChoice>>>({});
  const [job, setJob] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const view = useJob(job, (ended) => {
    setJob(null);
    if (ended?.state === "done") return router.push(`/import/${(ended.result as { import: string }).import}`);
    setError(ended?.error ?? "What became of it is not known. The list on the Import page says.");
    router.refresh();
  });
  const choose = (name: string, more: ReadingChoice) =>
    setChoices({ ...choices, [name]: { ...choices[name], ...more } });
  const begin = async () => {
    setError(null);
    const begun = await callApi<{ job: string }>("POST", `/api/imports/${importId}/read-again`, { reading: choices });
    if (begun.ok) setJob(begun.value.job);
    else setError(begun.error);
  };
  return (
    <details className="no-print">
      <summary>Read the files otherwise</summary>
      <form
        className="read-again"
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        {files.map(({ name, readAs }) => (
          <fieldset key={name} disabled={job !== null}>
            <legend>{name}</legend>
            <Choices readAs={readAs} choice={choices[name] ?? {}} onChoice={(more) => choose(name, more)} />
          </fieldset>
        ))}
        {error !== null && <ErrorNote happened={error} kept="This import waits as before." />}
        {job === null ? (
          <Button type="submit" variant="default" disabled={Object.keys(choices).length === 0}>
            Read again
          </Button>
        ) : (
          <ProgressLine {...progressWords(view?.progress ?? null)} />
        )}
      </form>
    </details>
  );
}

function Choices({
  readAs,
  choice,
  onChoice,
}: {
  readonly readAs: ReadAs;
  readonly choice: ReadingChoice;
  readonly onChoice: (more: ReadingChoice) => void;
}) {
  if (readAs.sheets.length > 0) {
    return (
      <NativeSelect
        label="Sheet"
        data={[...readAs.sheets]}
        value={choice.sheet ?? readAs.sheet ?? ""}
        onChange={(event) => onChoice({ sheet: event.currentTarget.value })}
      />
    );
  }
  return (
    <div className="read-again-choices">
      <NativeSelect
        label="Encoding"
        data={encodings.map((value) => ({ value, label: encodingTitles[value] }))}
        value={choice.encoding ?? readAs.encoding ?? "utf-8"}
        onChange={(event) => onChoice({ encoding: event.currentTarget.value as (typeof encodings)[number] })}
      />
      <NativeSelect
        label="Cells parted by"
        data={delimiterNames.map((value) => ({ value, label: delimiterTitles[value] }))}
        value={choice.delimiter ?? readAs.delimiter ?? "comma"}
        onChange={(event) => onChoice({ delimiter: event.currentTarget.value as (typeof delimiterNames)[number] })}
      />
    </div>
  );
}
