"use client";

import { AppLink } from "../app-link.client.tsx";
import { useFormats } from "../formats.client.tsx";
import { measureTitles } from "../unit/unit-words.ts";
import { sentTestAddress, testAddress } from "./address.ts";
import type { DeviceDraft } from "./device-draft.ts";
import { useOnline } from "./use-online.client.ts";

/** What stands on this device and nowhere else, and what of it was sent. */
export function DeviceNote(props: {
  readonly drafts: readonly DeviceDraft[];
  readonly isKept: boolean;
  /** The unit whose page this is. */
  readonly here: string;
}) {
  const f = useFormats();
  const isOnline = useOnline();
  const { drafts, isKept, here } = props;
  const unsent = drafts.filter(({ sent }) => sent === null);
  const name = ({ unit, test, fields }: DeviceDraft) =>
    `${unit}, ${measureTitles[test].toLowerCase()}, ${fields.date === "" ? "no day" : f.date(fields.date)}`;
  return (
    <section className="sheet" aria-labelledby="on-device">
      <div className="sheet-head">
        <h2 id="on-device">On this device</h2>
        <p className="second">{isOnline ? "Connected" : "No connection: go on, it is sent later"}</p>
      </div>
      <p>
        {unsent.length === 0
          ? "No test waits here."
          : isKept
            ? "Kept in this browser alone until sent; it outlasts a reload and a shut tablet. To open this page it needs the connection; once open it works without."
            : "Held by this page alone until sent."}
      </p>
      <ul className="device-list">
        {unsent.map((draft) => (
          <li key={draft.id}>
            {draft.unit === here ? name(draft) : <AppLink href={testAddress(draft.unit)}>{name(draft)}</AppLink>}
            <span className="second">
              {draft.sending !== "no"
                ? "finished, not sent yet"
                : draft.refusal !== null
                  ? "not taken: has to be put right"
                  : `being entered, ${f.number(draft.readings.length)} ${draft.readings.length === 1 ? "reading" : "readings"}`}
            </span>
          </li>
        ))}
        {drafts.map(
          (draft) =>
            draft.sent !== null && (
              <li key={draft.id}>
                <AppLink href={sentTestAddress(draft.unit, draft.sent)}>{name(draft)}</AppLink>
                <span className="second">sent</span>
              </li>
            ),
        )}
      </ul>
    </section>
  );
}
