"use client";

import { Button } from "@mantine/core";
import { useState } from "react";
import { ProgressLine } from "../import/progress-line.client.tsx";

/** How far a job is, and the way to end it; none where it is ended whole. */
export function JobLine(props: {
  readonly says: string;
  readonly share: number | null;
  /** Left out: it cannot be ended half way. */
  readonly onCancel?: () => void;
}) {
  const { onCancel } = props;
  const [cancelled, setCancelled] = useState(false);
  return (
    <div className="job-line">
      <ProgressLine says={props.says} share={props.share} />
      {onCancel !== undefined && (
        <Button
          variant="default"
          disabled={cancelled}
          onClick={() => {
            setCancelled(true);
            onCancel();
          }}
        >
          Cancel
        </Button>
      )}
    </div>
  );
}
