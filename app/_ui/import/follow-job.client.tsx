"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import { ProgressLine } from "./progress-line.client.tsx";
import { progressWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

/** Shows how far a job is that somebody began, and the page anew once it has ended. */
export function FollowJob({ job }: { readonly job: string }) {
  const router = useRouter();
  const [error, setError] = useState<string | null>(null);
  const view = useJob(job, (ended) => {
    setError(ended?.error ?? null);
    router.refresh();
  });
  if (error !== null) return <ErrorNote happened={error} />;
  return <ProgressLine {...progressWords(view?.progress ?? null, view?.kind)} />;
}
