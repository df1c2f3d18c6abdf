"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useId, useRef, useState, useTransition } from "react";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { askServer } from "../ask-server.client.ts";
import { notBegun } from "../asking/begun.ts";
import { ErrorNote } from "../error-note.tsx";
import { useFormats } from "../formats.client.tsx";
import { ProgressLine } from "../import/progress-line.client.tsx";
import { progressWords } from "../import/progress-words.ts";
import { useJob } from "../import/use-job.client.ts";
import { retireModel } from "./model-actions.ts";

/** Retires a model, or takes it back into use, after saying what that does. */
export function RetireForm(props: { readonly model: EngineModel; readonly units: number }) {
  const { model, units } = props;
  const f = useFormats();
  const retired = model.retired === true;
  const router = useRouter();
  const titleId = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  const [job, setJob] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  const view = useJob(job, (ended) => {
    setJob(null);
    setError(ended?.state === "failed" ? ended.error : null);
    router.refresh();
    document.getElementById("main")?.focus();
  });
  const act = () => {
    dialog.current?.close();
    startTransition(async () => {
      const answer = await askServer(
        () => retireModel(model.id, !retired),
        (problem) => ({ ...notBegun, problem }),
      );
      setError(answer.problem);
      setJob(answer.job);
    });
  };
  if (job !== null) return <ProgressLine {...progressWords(view?.progress ?? null, "save")} />;
  const kept =
    units === 0
      ? "No unit has it."
      : `${units === 1 ? "Its unit is" : `Its ${f.number(units)} units are`} assessed as before.`;
  return (
    <>
      {error !== null && <ErrorNote happened={error} kept="Nothing was changed." />}
      <Button variant="default" loading={pending} onClick={() => dialog.current?.showModal()}>
        {retired ? "Take back into use" : "Retire it"}
      </Button>
      <dialog ref={dialog} className="ask" aria-labelledby={titleId}>
        <h2 id={titleId}>{retired ? `Take ${model.id} back into use?` : `Retire ${model.id}?`}</h2>
        <p>
          {retired ? "It is listed with the others again." : "It is listed apart, for it is not meant for new units."}{" "}
          {kept} This can be undone.
        </p>
        <div className="form-buttons">
          <Button onClick={act}>{retired ? "Take it back" : "Retire it"}</Button>
          <Button variant="default" onClick={() => dialog.current?.close()}>
            Leave it
          </Button>
        </div>
      </dialog>
    </>
  );
}
