"use client";

import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { askServer } from "../ask-server.client.ts";
import { AskFirst } from "../asking/ask-first.client.tsx";
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
      <AskFirst
        button={retired ? "Take back into use" : "Retire it"}
        question={retired ? `Take ${model.id} back into use?` : `Retire ${model.id}?`}
        yes={retired ? "Take it back" : "Retire it"}
        no="Leave it"
        pending={pending}
        onYes={act}
      >
        {retired ? "It is listed with the others again." : "It is listed apart, for it is not meant for new units."}{" "}
        {kept} This can be undone.
      </AskFirst>
    </>
  );
}
