"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { importAddress } from "./address.ts";
import { callApi } from "./call-api.client.ts";
import { progressWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

/**
 * Has a waiting import read anew with something said otherwise, and leads to the import that comes of it. `ask`: where,
 * below the import's own address, and with what; `to`: the page of the new one that it leads to, left out: the import's. While `job` is not null, `says` tells how far it is.
 */
export function useReadAnew(importId: string, to: (importId: string) => string = (id) => importAddress(id)) {
  const router = useRouter();
  const [job, setJob] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const view = useJob(job, (ended) => {
    setJob(null);
    if (ended?.state === "done") return router.push(to((ended.result as { import: string }).import));
    setError(ended?.error ?? "What became of it is not known. The list on the Import page says.");
    router.refresh();
  });
  const ask = async (way: "corrections" | "proposals" | "read-again", fields: object) => {
    setError(null);
    const begun = await callApi<{ job: string }>("POST", `/api/imports/${importId}/${way}`, fields);
    if (begun.ok) setJob(begun.value.job);
    else setError(begun.error);
  };
  return { job, error, says: progressWords(view?.progress ?? null), ask };
}
