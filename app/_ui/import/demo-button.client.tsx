"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState } from "react";
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
  const view = useJob(job, (ended) => {
    if (ended?.state === "done") {
      router.push("/");
      return router.refresh();
    }
    setJob(null);
    setError(ended?.error ?? "What became of the demo fleet is not known; the list below says if it came in.");
    router.refresh();
  });
  const load = async () => {
    setError(null);
    const begun = await callApi<{ job: string }>("POST", "/api/demo");
    if (begun.ok) setJob(begun.value.job);
    else setError(begun.error);
  };
  if (job !== null) return <ProgressLine {...progressWords(view?.progress ?? null)} note={endsWhole.import} />;
  return (
    <>
      {error !== null && <ErrorNote happened={error} />}
      <Button variant="default" onClick={() => void load()}>
        Load the demo fleet
      </Button>
    </>
  );
}
