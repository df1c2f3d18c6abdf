import { importOutcome } from "../../db/import-outcome.ts";
import { importDetail } from "../../db/imports.ts";
import type { Store } from "../../db/store.ts";
import type { Formats } from "../../lib/viewing/formats.ts";
import { AppLink } from "./app-link.client.tsx";
import { importAddress } from "./import/address.ts";
import { assessedWords } from "./import/import-words.ts";

/** What a change that was just kept did, and where it can be undone; nothing where it is undone already. */
export async function SavedNote(props: { readonly store: Store; readonly importId: string; readonly f: Formats }) {
  const { store, importId, f } = props;
  const detail = await importDetail(store, importId);
  if (detail?.state !== "committed") return null;
  const outcome = await importOutcome(store, importId, { limit: 1 });
  return (
    <p role="status" className="saved-note">
      Kept.{f.words(assessedWords(outcome))}{" "}
      <AppLink href={importAddress(importId)}>See what moved, or undo it</AppLink>
    </p>
  );
}
