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
import { replan } from "./plan-actions.ts";

/** Makes the plan anew. `running`: the job that does so already. */
export function Replan(props: { readonly label: string; readonly isUrgent: boolean; readonly running: string | null }) {
  const router = useRouter();
  const [job, setJob] = useState<string | null>(props.running);
  const [problem, setProblem] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  const view = useJob(job, (ended) => {
    setJob(null);
    setProblem(ended?.error ?? null);
    router.refresh();
  });
  if (job !== null) return <JobLine {...progressWords(view?.progress ?? null)} cancels={job} />;
  return (
    <div className="plan-replan">
      <Button
        variant={props.isUrgent ? "filled" : "default"}
        loading={pending}
        onClick={() =>
          startTransition(async () => {
            const begun = await askServer(replan, (why) => ({ ...notBegun, problem: why }));
            setJob(begun.job);
            setProblem(begun.problem);
          })
        }
      >
        {props.label}
      </Button>
      {problem !== null && <ErrorNote happened={problem} kept="The plan stands as it was." />}
    </div>
  );
}
