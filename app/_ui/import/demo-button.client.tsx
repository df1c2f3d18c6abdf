"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState } from "react";
import { isBeforeCommit } from "../../_jobs/phases.ts";
import { JobLine } from "../asking/job-line.client.tsx";
import { ErrorNote } from "../error-note.tsx";
import { callApi } from "./call-api.client.ts";
import { endsWhole, ProgressLine } from "./progress-line.client.tsx";
import { progressWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

/** Loads the invented fleet into an empty store, then shows it. */
export function DemoButton({ job: running }: { readonly job: string | null }) {
  const router = useRouter();
  const [job, setJob] = useState(running);
  const [error, setError] = useState<string | null>(null);
  const [cancelled, setCancelled] = useState(false);
  const view = useJob(job, (ended) => {
    if (ended?.state === "done") {
      router.push("/");
      return router.refresh();
    }
    setJob(null);
    setCancelled(ended?.state === "cancelled");
    if (ended?.state === "cancelled") return router.refresh();
    setError(ended?.error ?? "What became of the demo fleet is not known; the list below says if it came in.");
    router.refresh();
  });
  const load = async () => {
    setError(null);
    setCancelled(false);
    const begun = await callApi<{ job: string }>("POST", "/api/demo");
    if (begun.ok) setJob(begun.value.job);
    else setError(begun.error);
  };
  if (job !== null) {
    const progress = view?.progress ?? null;
    // Asked too late it is refused, and the load goes on to its end.
    if (isBeforeCommit(progress)) {
      return <JobLine {...progressWords(progress)} cancels={job} />;
    }
    return <ProgressLine {...progressWords(progress)} note={endsWhole.import} />;
  }
  return (
    <>
      {cancelled && <p role="status">Cancelled. Nothing of the demo fleet was kept.</p>}
      {error !== null && <ErrorNote happened={error} />}
      <Button variant="default" onClick={() => void load()}>
        Load the demo fleet
      </Button>
    </>
  );
}
