"use client";

import { useEffect, useSyncExternalStore } from "react";
import { type DecimalSign, decimalSignOf } from "../figures.ts";
import { useFormats } from "../formats.client.tsx";
import { waitingDrafts } from "./device-store.client.ts";
import { sendSheet } from "./send-sheet.client.ts";

const againAfterMs = 10_000;

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
    for (const { id } of waiting) await sendSheet(id, sign);
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
