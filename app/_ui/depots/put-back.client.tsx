"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import { putBackDepot } from "./depot-actions.ts";

/** Puts a depot back to what a change told; null: to what was before the first. `what`: what that undoes, in words. */
export function PutBackDepot(props: {
  readonly depot: string;
  readonly change: number | null;
  readonly after: number;
  readonly label: string;
  readonly what: string;
}) {
  const router = useRouter();
  const [problem, setProblem] = useState<string | null>(null);
  const [pending, startTransition] = useTransition();
  const putBack = () =>
    startTransition(async () => {
      const { saved, problem: why, meanwhile } = await putBackDepot(props.depot, props.change, props.after);
      if (saved === null) {
        setProblem(why ?? `${meanwhile?.by ?? "Somebody"} changed this depot meanwhile; nothing was put back.`);
      }
      router.refresh();
    });
  return (
    <>
      <Button
        variant="default"
        size="compact-sm"
        loading={pending}
        onClick={putBack}
        aria-label={`${props.label}: ${props.what}`}
      >
        {props.label}
      </Button>
      {problem !== null && (
        <p role="alert" className="field-problem">
          {problem}
        </p>
      )}
    </>
  );
}
