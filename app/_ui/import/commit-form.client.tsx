"use client";

import { Button, Checkbox } from "@mantine/core";
import { useState } from "react";
import { countWord } from "../../../lib/wording.ts";
import { ErrorNote } from "../error-note.tsx";
import { useFormats } from "../formats.client.tsx";
import { DiscardButton } from "./discard-button.client.tsx";
import { endsWhole, ProgressLine } from "./progress-line.client.tsx";
import { useImportWork } from "./use-import-work.client.ts";

/** Commit or discard a staged import. `job`: a commit of it that runs already. */
export function CommitForm(props: {
  readonly importId: string;
  readonly newRows: number;
  readonly changedRows: number;
  readonly job: string | null;
}) {
  const { importId, newRows, changedRows } = props;
  const [takeChanges, setTakeChanges] = useState(false);
  const f = useFormats();
  const [busy, setBusy] = useState(false);
  const { job, says, error, setError, begin } = useImportWork(props.job);
  const commit = async () => {
    setBusy(true);
    await begin(`/api/imports/${importId}/commit`, { takeChanges });
    setBusy(false);
  };
  if (job !== null) return <ProgressLine {...says} note={endsWhole.import} />;
  const taken = newRows + (takeChanges ? changedRows : 0);
  return (
    <div className="commit-form">
      {error !== null && <ErrorNote happened={error} kept="What was known before is unchanged." />}
      {changedRows > 0 && (
        <Checkbox
          checked={takeChanges}
          onChange={(event) => setTakeChanges(event.currentTarget.checked)}
          label={
            changedRows === 1
              ? "Take the row that changes what is known, too"
              : `Take the ${f.words(countWord(changedRows))} rows that change what is known, too`
          }
          description="What it replaces is kept, and comes back if this import is undone."
        />
      )}
      <div className="form-buttons">
        <Button onClick={() => void commit()} disabled={taken === 0} loading={busy} aria-describedby="commit-hint">
          Commit
        </Button>
        <DiscardButton importId={importId} disabled={busy} onFailed={setError} />
        <p id="commit-hint" className="second">
          {hint(taken, changedRows)}
        </p>
      </div>
    </div>
  );
}

function hint(taken: number, changedRows: number): string {
  if (taken > 0) return "The units concerned are assessed at once. An import can be undone.";
  return changedRows > 0 ? "Only changes wait here: tick the box to take them." : "There is nothing to take in.";
}
