"use client";

import { Button } from "@mantine/core";
import { useState } from "react";
import { ProgressLine } from "../import/progress-line.client.tsx";

/** How far a job is, and the way to end it. */
export function JobLine(props: {
  readonly says: string;
  readonly share: number | null;
  readonly onCancel: () => void;
}) {
  const [cancelled, setCancelled] = useState(false);
  return (
    <div className="job-line">
      <ProgressLine says={props.says} share={props.share} />
      <Button
        variant="default"
        disabled={cancelled}
        onClick={() => {
          setCancelled(true);
          props.onCancel();
        }}
      >
        Cancel
      </Button>
    </div>
  );
}
