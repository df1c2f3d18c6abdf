"use client";

import { useEffect, useSyncExternalStore } from "react";
import { type DecimalSign, decimalSignOf } from "../figures.ts";
import { useFormats } from "../formats.client.tsx";
import { sendable } from "./device-draft.ts";
import { changeDraft, deviceDraft, waitingDrafts } from "./device-store.client.ts";

const againAfterMs = 10_000;
/** A server that is busy with a large import answers within this; then the sheet is sent again. */
const answerWithinMs = 60_000;

/** Sends one sheet; it is changed by what comes of it. The server tells a second sending from another test by its id. */
async function send(id: string, sign: DecimalSign): Promise<void> {
  const draft = deviceDraft(id);
  if (draft === null || draft.sending === "no" || draft.sent !== null) return;
  const read = sendable(draft, sign);
  if ("problems" in read) {
    const [refusal = null] = Object.values(read.problems);
    return changeDraft(id, (now) => ({ ...now, sending: "no", refusal }));
  }
  // Noted before: the page may be shut before the answer comes.
  changeDraft(id, (now) => ({ ...now, sending: "tried" }));
  try {
    const response = await fetch("/api/test-sheets", {
      method: "POST",
      body: JSON.stringify(read.test),
      headers: { "content-type": "application/json" },
      signal: AbortSignal.timeout(answerWithinMs),
    });
    const answer = (await response.json()) as { readonly import?: unknown; readonly error?: unknown };
    if (response.ok && typeof answer.import === "string") {
      const kept = answer.import;
      return changeDraft(id, (now) => ({ ...now, sent: kept, refusal: null }));
    }
    if (response.status < 500) {
      const refusal =
        typeof answer.error === "string" ? answer.error : "The server did not take it and gave no reason.";
      changeDraft(id, (now) => ({ ...now, sending: "no", refusal }));
    }
  } catch {
    // Not reached, or no answer: it waits and is sent again.
  }
}

let isSending = false;
const listeners = new Set<() => void>();
const setSending = (sending: boolean) => {
  isSending = sending;
  for (const listener of listeners) listener();
};
function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** All that wait, one after the other; whoever asks meanwhile finds it under way. */
async function sendAll(sign: DecimalSign): Promise<void> {
  const waiting = waitingDrafts();
  if (isSending || !navigator.onLine || waiting.length === 0) return;
  setSending(true);
  try {
    for (const { id } of waiting) await send(id, sign);
  } finally {
    setSending(false);
  }
}

/**
 * Sends the finished sheets of this device: now, when the connection or the page comes back, and every few seconds while
 * any waits. Gives what sends at once, and whether one is on its way.
 */
export function useSender(): { readonly sendNow: () => void; readonly isSending: boolean } {
  const sign = decimalSignOf(useFormats().preferences.numbers);
  const sending = useSyncExternalStore(
    subscribe,
    () => isSending,
    () => false,
  );
  useEffect(() => {
    const go = () => void sendAll(sign);
    go();
    const timer = setInterval(go, againAfterMs);
    window.addEventListener("online", go);
    document.addEventListener("visibilitychange", go);
    return () => {
      clearInterval(timer);
      window.removeEventListener("online", go);
      document.removeEventListener("visibilitychange", go);
    };
  }, [sign]);
  return { sendNow: () => void sendAll(sign), isSending: sending };
}
