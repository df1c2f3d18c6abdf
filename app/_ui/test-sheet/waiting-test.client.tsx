"use client";

import { useEffect, useRef } from "react";
import { measureTitles } from "../unit/unit-words.ts";
import type { DeviceDraft } from "./device-draft.ts";
import { ReadingsList } from "./readings-list.client.tsx";
import { useOnline } from "./use-online.client.ts";

/** A finished sheet that is not sent yet: where it is, what it waits for, and what may still be done. */
export function WaitingTest(props: {
  readonly draft: DeviceDraft;
  readonly isSending: boolean;
  readonly onSend: () => void;
  /** Back to entering; only while no sending has begun. */
  readonly onChange: () => void;
}) {
  const { draft, isSending } = props;
  const isOnline = useOnline();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <section className="sheet" aria-labelledby="test-waits">
      <div className="sheet-head">
        <h2 id="test-waits" ref={heading} tabIndex={-1}>
          {measureTitles[draft.test]}: {isSending ? "on its way" : "waits to be sent"}
        </h2>
      </div>
      <p role="status">
        {isSending
          ? "It is being sent, and its unit assessed anew."
          : isOnline
            ? "The server gave no answer. The test is on this device, and is sent again by itself while a page of Borecast is open."
            : "No connection. The test is on this device, and is sent by itself once there is one and a page of Borecast is open."}
      </p>
      {draft.sending === "tried" && !isSending && (
        <p>
          It may have arrived although no answer came, so it is changed no more: it is kept once, however often it is
          sent.
        </p>
      )}
      <ReadingsList draft={draft} />
      <div className="tap-foot">
        <button type="button" className="tap" data-variant="filled" disabled={isSending} onClick={props.onSend}>
          Send now
        </button>
        {draft.sending === "waiting" && (
          <button type="button" className="tap" disabled={isSending} onClick={props.onChange}>
            Change it first
          </button>
        )}
      </div>
    </section>
  );
}
