"use client";

import type { DecimalSign } from "../figures.ts";
import { sendable } from "./device-draft.ts";
import { changeDraft, deviceDraft, newDraftId } from "./device-store.client.ts";

/** A server that is busy with a large import answers within this; then the sheet is sent again. */
const answerWithinMs = 60_000;
const noReason = "The server did not take it and gave no reason.";

/**
 * Sends one sheet, and changes it by what comes of it. Where no answer comes it waits and is sent again, and the server tells
 * a second sending from another test by the sheet's id. It is given back to be changed only where it is certain that no
 * sending of it arrived: by the answer to the first one, or once the server said so and takes none of that id any more.
 */
export async function sendSheet(id: string, sign: DecimalSign): Promise<void> {
  const draft = deviceDraft(id);
  if (draft === null || draft.sending === "no" || draft.sent !== null) return;
  const sentAs = draft.sentAs ?? id;
  const wasTried = draft.sending === "tried";
  const giveBack = (refusal: string) => (wasTried ? reopen(id, sentAs, refusal) : refused(id, refusal));
  const read = sendable(draft, sign);
  if ("problems" in read) return giveBack(Object.values(read.problems)[0] ?? noReason);
  // Noted before: the page may be shut before the answer comes.
  changeDraft(id, (now) => ({ ...now, sending: "tried" }));
  const answer = await posted("/api/test-sheets", { ...read.test, id: sentAs });
  if (answer === null || answer.status >= 500) return;
  if (answer.ok && typeof answer.body.import === "string") return arrived(id, answer.body.import);
  return giveBack(typeof answer.body.error === "string" ? answer.body.error : noReason);
}

/** Asks whether an earlier sending arrived. Without an answer the sheet stays as it is, and is sent again. */
async function reopen(id: string, sentAs: string, refusal: string): Promise<void> {
  const answer = await posted("/api/test-sheets/reopened", { id: sentAs });
  if (answer === null || !answer.ok) return;
  if (typeof answer.body.import === "string") return arrived(id, answer.body.import);
  changeDraft(id, (now) => ({ ...now, sending: "no", refusal, sentAs: newDraftId(Date.now()) }));
}

const arrived = (id: string, sent: string): void => changeDraft(id, (now) => ({ ...now, sent, refusal: null }));
const refused = (id: string, refusal: string): void => changeDraft(id, (now) => ({ ...now, sending: "no", refusal }));

interface Answer {
  readonly ok: boolean;
  readonly status: number;
  readonly body: { readonly import?: unknown; readonly error?: unknown };
}

/** null: the server was not reached, or gave no answer that can be read. */
async function posted(address: string, body: object): Promise<Answer | null> {
  try {
    const response = await fetch(address, {
      method: "POST",
      body: JSON.stringify(body),
      headers: { "content-type": "application/json" },
      signal: AbortSignal.timeout(answerWithinMs),
    });
    return { ok: response.ok, status: response.status, body: (await response.json()) as Answer["body"] };
  } catch {
    return null;
  }
}
