"use client";

import { useRouter } from "next/navigation";
import { useState, useTransition } from "react";
import type { BandsPreview } from "../../_jobs/preview-bands.ts";
import { useJob } from "../import/use-job.client.ts";
import type { Begun } from "./begun.ts";

interface Ended {
  readonly says: string;
  readonly failed: boolean;
}

/**
 * A change from the asking to its end: first what it would change is looked at, then the person decides, then it is put in
 * force; each may take a while. `running`: a change that is being put in force already.
 */
export function useAskedChange<A>(props: {
  readonly look: (ask: A) => Promise<Begun>;
  readonly save: (ask: A) => Promise<Begun>;
  readonly running: string | null;
  /** It is in force; `result` is what the job that saved it gave. */
  readonly onSaved: (result: unknown) => void;
}) {
  const router = useRouter();
  const [asked, setAsked] = useState<A | null>(null);
  const [begun, setBegun] = useState<Begun | null>(null);
  const [running, setRunning] = useState<{ readonly job: string | null; readonly kind: Begun["kind"] }>({
    job: props.running,
    kind: "save",
  });
  const [preview, setPreview] = useState<BandsPreview | null>(null);
  const [ended, setEnded] = useState<Ended | null>(null);
  const [pending, startTransition] = useTransition();

  const view = useJob(running.job, (end) => {
    setRunning({ ...running, job: null });
    // The job's kind tells what it gives.
    if (end?.state === "done" && running.kind === "preview") return setPreview(end.result as BandsPreview);
    setEnded(endOf(running.kind, end));
    if (running.kind === "preview") return;
    setAsked(null);
    if (end?.state === "done") props.onSaved(end.result);
    router.refresh();
  });
  const begin = (what: (ask: A) => Promise<Begun>, ask: A) =>
    startTransition(async () => {
      setEnded(null);
      setPreview(null);
      const answer = await what(ask);
      setBegun(answer);
      setAsked(ask);
      if (answer.job !== null) setRunning({ job: answer.job, kind: answer.kind });
      if (answer.meanwhile !== null) router.refresh();
    });
  return {
    begun,
    preview,
    ended,
    job: running.job,
    kind: running.kind,
    progress: view?.progress ?? null,
    busy: pending || running.job !== null,
    look: (ask: A) => begin(props.look, ask),
    save: () => {
      if (asked !== null) begin(props.save, asked);
    },
    /** What was looked at does not hold any more: the person goes on typing, or leaves it. */
    leave: () => {
      setPreview(null);
      setEnded(null);
    },
  };
}

export type AskedChange = Omit<ReturnType<typeof useAskedChange<unknown>>, "look">;

function endOf(kind: Begun["kind"], end: { readonly state: string; readonly error: string | null } | null): Ended {
  if (end === null) {
    const says = "What became of it is not known, for the server was started anew. The history below tells.";
    return { says, failed: true };
  }
  if (end.state === "failed") return { says: end.error ?? "", failed: true };
  if (end.state === "done") return { says: "In force.", failed: false };
  if (kind === "preview") return { says: "Cancelled. Nothing was changed.", failed: false };
  return { says: "Cancelled. The history below tells whether the change is in force.", failed: false };
}
