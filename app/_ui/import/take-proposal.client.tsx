"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import { useFormats } from "../formats.client.tsx";
import { callApi } from "./call-api.client.ts";
import type { Offer } from "./import-words.ts";
import { ProgressLine } from "./progress-line.client.tsx";
import { progressWords } from "./progress-words.ts";
import { useJob } from "./use-job.client.ts";

/** What the rows of an issue may have meant, each to be taken by one click: the import is then read anew with it. */
export function TakeProposal({ importId, offers }: { readonly importId: string; readonly offers: readonly Offer[] }) {
  const router = useRouter();
  const f = useFormats();
  const [job, setJob] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const view = useJob(job, (ended) => {
    setJob(null);
    if (ended?.state === "done") return router.push(`/import/${(ended.result as { import: string }).import}`);
    setError(ended?.error ?? "What became of it is not known. The list on the Import page says.");
    router.refresh();
  });
  const take = async ({ issue, proposal }: Offer) => {
    setError(null);
    const begun = await callApi<{ job: string }>("POST", `/api/imports/${importId}/proposals`, { issue, proposal });
    if (begun.ok) setJob(begun.value.job);
    else setError(begun.error);
  };
  if (job !== null) return <ProgressLine {...progressWords(view?.progress ?? null)} />;
  return (
    <div className="issue-offers no-print">
      {error !== null && <ErrorNote happened={error} kept="This import waits as before." />}
      {offers.map((offer) => (
        <Button
          key={`${offer.issue} ${offer.proposal}`}
          variant="default"
          size="compact-sm"
          onClick={() => void take(offer)}
        >
          {f.words(offer.words)}
        </Button>
      ))}
    </div>
  );
}
