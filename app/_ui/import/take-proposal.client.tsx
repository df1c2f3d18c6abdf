"use client";

import { Button } from "@mantine/core";
import { ErrorNote } from "../error-note.tsx";
import { useFormats } from "../formats.client.tsx";
import type { Offer } from "./import-words.ts";
import { ProgressLine } from "./progress-line.client.tsx";
import { useReadAnew } from "./use-read-anew.client.ts";

/** What the rows of an issue may have meant, each to be taken by one click: the import is then read anew with it. */
export function TakeProposal({ importId, offers }: { readonly importId: string; readonly offers: readonly Offer[] }) {
  const f = useFormats();
  const { job, error, says, ask } = useReadAnew(importId);
  const take = ({ issue, proposal }: Offer) => ask("proposals", { issue, proposal });
  if (job !== null) return <ProgressLine {...says} />;
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
