"use client";

import { Button } from "@mantine/core";
import { useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import { callApi } from "../import/call-api.client.ts";
import { ProgressLine } from "../import/progress-line.client.tsx";

/** How far a job is, and the way to end it; none where it is ended whole. */
export function JobLine(props: {
  readonly says: string;
  readonly share: number | null;
  /** The job that may be cancelled; left out: it cannot be ended half way. */
  readonly cancels?: string;
}) {
  const { cancels } = props;
  const [cancelled, setCancelled] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const cancel = async () => {
    setCancelled(true);
    setRefused(null);
    const answer = await callApi("DELETE", `/api/jobs/${cancels}`);
    if (answer.ok) return;
    setRefused(answer.error);
    setCancelled(false);
  };
  return (
    <div className="job-line">
      <ProgressLine says={props.says} share={props.share} />
      {cancels !== undefined && (
        <Button variant="default" disabled={cancelled} onClick={() => void cancel()}>
          Cancel
        </Button>
      )}
      {refused !== null && <ErrorNote happened={refused} kept="The work goes on." />}
    </div>
  );
}
