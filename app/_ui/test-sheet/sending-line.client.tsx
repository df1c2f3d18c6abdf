"use client";

import { AppLink } from "../app-link.client.tsx";
import { testAddress } from "./address.ts";
import { useDeviceSheets } from "./device-store.client.ts";
import { useSender } from "./use-sender.client.ts";

/** Sends what waits on this device, and says so while it does. Fetched by itself, so the file gives it alone. */
export default function SendingLine() {
  const { isSending } = useSender();
  const waiting = (useDeviceSheets()?.drafts ?? []).filter(({ sending, sent }) => sending !== "no" && sent === null);
  const [first] = waiting;
  if (first === undefined) return null;
  return (
    <p className="sheets-waiting no-print" role="status">
      <AppLink className="sheets-link" href={testAddress(first.unit)}>
        {waiting.length === 1 ? `The test of ${first.unit}` : `${waiting.length} tests`} on this device{" "}
        {isSending ? "on the way to the server" : "not sent yet"}
      </AppLink>
    </p>
  );
}
