"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import { askServer } from "./ask-server.client.ts";
import { NeedsScript } from "./needs-script.tsx";
import { useListening } from "./use-listening.client.ts";

/** What became of the wish to put an older version back. */
interface PutBackOutcome {
  /** What is in force now; null: nothing was put back. */
  readonly saved: number | string | null;
  readonly problem: string | null;
  readonly meanwhile: { readonly by: string } | null;
}

/** Puts a thing back to an older version of it. `what`: which that is, or what it undoes, in words. */
export function PutBack(props: {
  /** A server action with all that it has to be told. */
  readonly action: () => Promise<PutBackOutcome>;
  /** "this depot" */
  readonly thing: string;
  readonly label: string;
  readonly what: string;
  readonly size?: "sm";
}) {
  const router = useRouter();
  const isListening = useListening();
  const [problem, setProblem] = useState<string | null>(null);
  const [done, setDone] = useState(false);
  const [pending, startTransition] = useTransition();
  const putBack = () =>
    startTransition(async () => {
      const {
        saved,
        problem: why,
        meanwhile,
      } = await askServer<PutBackOutcome>(props.action, (why) => ({ saved: null, problem: why, meanwhile: null }));
      setDone(saved !== null);
      setProblem(
        saved === null
          ? (why ?? `${meanwhile?.by ?? "Somebody"} changed ${props.thing} meanwhile; nothing was put back.`)
          : null,
      );
      router.refresh();
    });
  return (
    <>
      <NeedsScript />
      <Button
        variant="default"
        disabled={!isListening}
        size={props.size ?? "compact-sm"}
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
