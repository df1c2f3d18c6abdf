"use client";

import { useState } from "react";
import { ErrorNote } from "../error-note.tsx";
import { DiscardButton } from "./discard-button.client.tsx";

/** The way on from an import whose reading was cut short. */
export function AbandonedImport({ importId }: { readonly importId: string }) {
  const [error, setError] = useState<string | null>(null);
  return (
    <>
      {error !== null && <ErrorNote happened={error} kept="What was known before is unchanged." />}
      <DiscardButton importId={importId} onFailed={setError} />
    </>
  );
}
