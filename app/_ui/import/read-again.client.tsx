"use client";

import { Button, NativeSelect } from "@mantine/core";
import { useState } from "react";
import { delimiterNames, encodings, type ReadAs, type ReadingChoice } from "../../../lib/schema/reading.ts";
import { ErrorNote } from "../error-note.tsx";
import { ProgressLine } from "./progress-line.client.tsx";
import { delimiterTitles, encodingTitles } from "./reading-words.ts";
import { useReadAnew } from "./use-read-anew.client.ts";

interface FileRead {
  readonly name: string;
  readonly readAs: ReadAs;
}

/** How the files of a waiting import were read, to be said otherwise: the import is then made anew from the kept files. */
export function ReadAgain({ importId, files }: { readonly importId: string; readonly files: readonly FileRead[] }) {
  const [choices, setChoices] = useState<Readonly<Record<string, ReadingChoice>>>({});
  const { job, error, says, ask } = useReadAnew(importId);
  const choose = (name: string, more: ReadingChoice) =>
    setChoices({ ...choices, [name]: { ...choices[name], ...more } });
  return (
    <details className="no-print">
      <summary>Read the files otherwise</summary>
      <form
        className="read-again"
        onSubmit={(event) => {
          event.preventDefault();
          void ask("read-again", { reading: choices });
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
          <ProgressLine {...says} />
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
