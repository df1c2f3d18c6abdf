"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import { askServer } from "../ask-server.client.ts";
import { putBackDepot } from "./depot-actions.ts";
import { nothingKept } from "./depot-outcome.ts";

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
  const [done, setDone] = useState(false);
  const [pending, startTransition] = useTransition();
  const putBack = () =>
    startTransition(async () => {
      const {
        saved,
        problem: why,
        meanwhile,
      } = await askServer(
        () => putBackDepot(props.depot, props.change, props.after),
        (why) => ({ ...nothingKept, problem: why }),
      );
      setDone(saved !== null);
      setProblem(
        saved === null
          ? (why ?? `${meanwhile?.by ?? "Somebody"} changed this depot meanwhile; nothing was put back.`)
          : null,
      );
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
      <span role="status" className="second small">
        {done ? "Put back: the change on top." : ""}
      </span>
      {problem !== null && (
        <p role="alert" className="field-problem">
          {problem}
        </p>
      )}
    </>
  );
}
