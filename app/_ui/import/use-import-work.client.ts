"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { callApi } from "./call-api.client.ts";
import { progressWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

/**
 * A commit or an undo of an import, from the asking to its end. `running`: a job of that import which runs already;
 * `begin` asks for one. While `job` is not null, `says` tells how far it is.
 */
export function useImportWork(running: string | null) {
  const router = useRouter();
  const [job, setJob] = useState(running);
  const [error, setError] = useState<string | null>(null);
  const view = useJob(job, (ended) => {
    if (ended?.state === "failed") setError(ended.error);
    setJob(null);
    router.refresh();
    // The button that had the focus is gone; what became of the import is read from the top.
    document.getElementById("main")?.focus();
  });
  const begin = async (address: string, fields?: object) => {
    setError(null);
    const begun = await callApi<{ job: string }>("POST", address, fields);
    if (begun.ok) return setJob(begun.value.job);
    setError(begun.error);
    router.refresh();
  };
  return { job, says: progressWords(view?.progress ?? null, view?.kind), error, setError, begin };
}
