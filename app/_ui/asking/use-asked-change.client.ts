"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useState, useTransition } from "react";
import type { BandsPreview } from "../../_jobs/preview-bands.ts";
import { askServer } from "../ask-server.client.ts";
import { callApi } from "../import/call-api.client.ts";
import { useJob } from "../import/use-job.client.ts";
import { type Begun, notBegun } from "./begun.ts";

interface Ended {
  readonly says: string;
  readonly failed: boolean;
}

/** What was looked at, what was read from its fields, and what it would do. */
interface LookedAt<A> {
  readonly ask: A;
  readonly reads: Begun["reads"];
  readonly preview: BandsPreview;
}

interface Running<A> {
  readonly job: string | null;
  readonly kind: Begun["kind"];
  /** null: it ran already when the page came. */
  readonly ask: A | null;
  readonly reads: Begun["reads"];
}

/**
 * A change from the asking to its end: first what it would change is looked at, then the person decides, then it is put in
 * force; each may take a while. What is put in force is what was looked at, never what was typed since. `running`: a change
 * that is being put in force already.
 */
export function useAskedChange<A>(props: {
  readonly look: (ask: A) => Promise<Begun>;
  readonly save: (ask: A) => Promise<Begun>;
  readonly running: string | null;
  /** It is in force; `result` is what the job that saved it gave, `ask` what was asked for (null: before this page came). */
  readonly onSaved: (result: unknown, ask: A | null) => void;
}) {
  const router = useRouter();
  const [begun, setBegun] = useState<Begun | null>(null);
  const [running, setRunning] = useState<Running<A>>({ job: props.running, kind: "save", ask: null, reads: [] });
  const [lookedAt, setLookedAt] = useState<LookedAt<A> | null>(null);
  const [ended, setEnded] = useState<Ended | null>(null);
  const [pending, startTransition] = useTransition();
  // Counts the looks; one that was left before its answer came is not followed.
  const looks = useRef(0);

  const view = useJob(running.job, (end) => {
    const { kind, ask, reads } = running;
    setRunning({ ...running, job: null });
    if (end?.state === "done" && kind === "preview" && ask !== null) {
      // The job's kind tells what it gives.
      return setLookedAt({ ask, reads, preview: end.result as BandsPreview });
    }
    setEnded(endOf(kind, end));
    if (kind === "preview") return;
    setLookedAt(null);
    if (end?.state === "done") props.onSaved(end.result, ask);
    router.refresh();
  });
  // Between a press and its answer a second press must find nothing to press.
  const isSaving = useRef(false);
  const live = useRef(running);
  useEffect(() => {
    live.current = running;
  });
  // Who leaves the page waits for no preview.
  useEffect(
    () => () => {
      looks.current += 1;
      if (live.current.kind === "preview") endPreview(live.current.job);
    },
    [],
  );
  const begin = (what: "look" | "save", ask: A) => {
    looks.current += 1;
    const look = looks.current;
    const before = lookedAt;
    isSaving.current = what === "save";
    // Not in the transition: what it sets shows only once the answer is here.
    setEnded(null);
    setLookedAt(null);
    startTransition(async () => {
      const answer = await askServer(
        () => props[what](ask),
        (problem) => ({ ...notBegun, problem }),
      );
      // What was to be put in force is followed whatever was typed since, and so is a look that put it in force at once.
      if (what === "look" && look !== looks.current && answer.kind === "preview") return endPreview(answer.job);
      isSaving.current = false;
      setBegun(answer);
      // Nothing was begun and nothing is said against it: it can be asked for again as it was looked at.
      if (what === "save" && answer.job === null && answer.problem !== null && look === looks.current)
        setLookedAt(before);
      if (answer.job !== null) setRunning({ job: answer.job, kind: answer.kind, ask, reads: answer.reads });
      if (answer.meanwhile !== null) router.refresh();
    });
  };
  return {
    begun,
    lookedAt,
    ended,
    job: running.job,
    kind: running.kind,
    progress: view?.progress ?? null,
    busy: pending || running.job !== null,
    look: (ask: A) => begin("look", ask),
    save: () => {
      if (lookedAt !== null && !isSaving.current) begin("save", lookedAt.ask);
    },
    /** What was looked at does not hold any more: the person goes on typing, or leaves it. */
    leave: () => {
      looks.current += 1;
      if (running.job !== null && running.kind === "preview") {
        endPreview(running.job);
        setRunning({ ...running, job: null });
      }
      setLookedAt(null);
      setEnded(null);
    },
  };
}

export type AskedChange = Omit<ReturnType<typeof useAskedChange<unknown>>, "look">;

/** Nobody waits for it any more; that it cannot be told so does no harm, for it keeps nothing. */
function endPreview(job: string | null): void {
  if (job !== null) void callApi("DELETE", `/api/jobs/${job}`);
}

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
