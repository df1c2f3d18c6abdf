"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import { askServer } from "../ask-server.client.ts";
import { notBegun } from "../asking/begun.ts";
import { JobLine } from "../asking/job-line.client.tsx";
import { ErrorNote } from "../error-note.tsx";
import { progressWords } from "../import/progress-words.ts";
import { useJob } from "../import/use-job.client.ts";
import { assessTheRest } from "./settings-actions.ts";

/** Says that units are still told by what was in force before, and assesses them when asked to. */
export function LeftOver() {
  const router = useRouter();
  const [job, setJob] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  const view = useJob(job, (ended) => {
    setJob(null);
    setProblem(ended?.error ?? null);
    router.refresh();
  });
  const assess = () =>
    startTransition(async () => {
      const begun = await askServer(assessTheRest, (why) => ({ ...notBegun, problem: why }));
      setJob(begun.job);
      setProblem(begun.problem);
    });
  if (job !== null) {
    return <JobLine {...progressWords(view?.progress ?? null)} cancels={job} />;
  }
  return (
    <ErrorNote
      happened="Some units are still told by what was in force before the last change."
      kept="They are assessed at the next start, or within the hour."
      {...(problem === null ? {} : { todo: problem })}
    >
      <Button variant="default" loading={pending} onClick={assess}>
        Assess them now
      </Button>
    </ErrorNote>
  );
}
