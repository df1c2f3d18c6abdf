"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { type DragEvent, useId, useRef, useState } from "react";
import type { JobView } from "../../_jobs/job-registry.ts";
import { ErrorNote } from "../error-note.tsx";
import { callApi, sendFile } from "./call-api.client.ts";
import { limitWords, mostFiles, tooLarge, tooLargeTogether, tooManyFiles, type UploadLimits } from "./limits.ts";
import { PasteArea } from "./paste-area.client.tsx";
import { ProgressLine } from "./progress-line.client.tsx";
import { progressWords, sendingWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

type State =
  | { readonly step: "waiting"; readonly error: string | null; readonly note: string | null }
  | { readonly step: "sending"; readonly file: string; readonly says: string; readonly share: number }
  | { readonly step: "reading"; readonly job: string };

const waiting = (error: string | null, note: string | null = null): State => ({ step: "waiting", error, note });

const bytesOf = (files: readonly File[]) => files.reduce((sum, file) => sum + file.size, 0);

const whyNot = (files: readonly File[], limits: UploadLimits): string | null => {
  const large = files.find((file) => file.size > limits.bytes);
  if (large !== undefined) return `${large.name} is too large. ${tooLarge(limits)}`;
  if (bytesOf(files) > limits.bytesTogether) return tooLargeTogether(limits);
  return files.length > mostFiles ? tooManyFiles : null;
};

/**
 * Takes files, or rows that are pasted, sends them, follows how they are read, and leads to the preview. `job`: one that
 * runs already.
 */
export function FileIntake({ job: running, limits }: { readonly job: string | null; readonly limits: UploadLimits }) {
  const router = useRouter();
  const [state, setState] = useState<State>(running === null ? waiting(null) : { step: "reading", job: running });
  // Here, so that it is still there where sending it failed.
  const [pasted, setPasted] = useState("");
  const sending = useRef<AbortController | null>(null);

  const view = useJob(state.step === "reading" ? state.job : null, (ended) => {
    if (ended?.state === "done") return router.push(`/import/${(ended.result as { import: string }).import}`);
    if (ended?.state === "cancelled") setState(waiting(null, "Cancelled. Nothing was kept."));
    else setState(waiting(ended?.error ?? "What became of the import is not known. The list below says if it waits."));
    router.refresh();
  });

  const take = async (files: readonly File[]) => {
    if (files.length === 0) return;
    const problem = whyNot(files, limits);
    if (problem !== null) return setState(waiting(problem));
    const controller = new AbortController();
    sending.current = controller;
    const total = bytesOf(files);
    const first = files[0]?.name ?? "";
    setState({ step: "sending", file: first, says: sendingWords(first, 0, total), share: 0 });
    const opened = await callApi<{ upload: string }>("POST", "/api/uploads");
    if (!opened.ok) return setState(waiting(opened.error));
    const { upload } = opened.value;
    const giveUp = async (next: State) => {
      await callApi("DELETE", `/api/uploads/${upload}`);
      setState(next);
    };
    let before = 0;
    for (const file of files) {
      const onSent = (bytes: number) => {
        const sent = Math.min(total, before + bytes);
        setState({
          step: "sending",
          file: file.name,
          says: sendingWords(file.name, sent, total),
          share: total === 0 ? 1 : sent / total,
        });
      };
      const sent = await sendFile(upload, file, { onSent, signal: controller.signal });
      if (sent === null) return giveUp(waiting(null, "Cancelled. Nothing was kept."));
      if (!sent.ok) return giveUp(waiting(`${file.name}: ${sent.error}`));
      before += file.size;
    }
    const begun = await callApi<{ job: string }>("POST", "/api/imports", { upload });
    setState(begun.ok ? { step: "reading", job: begun.value.job } : waiting(begun.error));
  };

  const cancel = () => {
    if (state.step === "sending") sending.current?.abort();
    if (state.step === "reading") void callApi("DELETE", `/api/jobs/${state.job}`);
  };

  if (state.step !== "waiting") {
    const shown = state.step === "sending" ? state : shownOf(view);
    return (
      <div className="drop-area" data-busy="true">
        <ProgressLine {...shown} />
        <Button variant="default" onClick={cancel}>
          Cancel
        </Button>
        <p className="second small">Nothing is kept yet.</p>
      </div>
    );
  }
  return (
    <>
      {state.error !== null && (
        <ErrorNote happened={state.error} kept="Nothing was taken in; what was known before is unchanged." />
      )}
      <p role="status" className={state.note === null ? "visually-hidden" : "import-note"}>
        {state.note ?? ""}
      </p>
      <DropArea onFiles={(files) => void take(files)} limits={limits} />
      <PasteArea text={pasted} onText={setPasted} onFile={(file) => void take([file])} />
    </>
  );
}

function shownOf(view: JobView | null): { readonly says: string; readonly share: number | null } {
  return view === null ? { says: "Reading", share: null } : progressWords(view.progress);
}

function DropArea({
  onFiles,
  limits,
}: {
  readonly onFiles: (files: readonly File[]) => void;
  readonly limits: UploadLimits;
}) {
  const id = useId();
  const [over, setOver] = useState(false);
  const drag = (isOver: boolean) => (event: DragEvent) => {
    event.preventDefault();
    setOver(isOver);
  };
  return (
    <label
      className="drop-area"
      data-over={over}
      htmlFor={id}
      onDragOver={drag(true)}
      onDragLeave={drag(false)}
      onDrop={(event) => {
        drag(false)(event);
        onFiles([...event.dataTransfer.files]);
      }}
    >
      <input
        id={id}
        type="file"
        multiple
        accept=".csv,.txt,.tsv,.json,.xlsx,text/csv,text/plain,application/json,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
        className="visually-hidden"
        onChange={(event) => {
          onFiles([...(event.target.files ?? [])]);
          // The same files may be chosen again after they were mended.
          event.target.value = "";
        }}
      />
      <span className="button-link" data-variant="filled">
        Choose files
      </span>
      <span className="drop-words">
        or drop them here: CSV files, .xlsx workbooks and engine models as JSON, several at once, in any order.
      </span>
      <span className="second small">
        Up to {limitWords(limits.bytes)} a file. Nothing is kept until you have seen it and commit.
      </span>
    </label>
  );
}
