"use client";

import { Button } from "@mantine/core";
import { useRouter } from "next/navigation";
import { useState } from "react";
import { callApi } from "./call-api.client.ts";

/** Discards an import that was not committed and goes to the list of imports; what hinders it is told to `onFailed`. */
export function DiscardButton(props: {
  readonly importId: string;
  readonly disabled?: boolean;
  readonly onFailed: (error: string | null) => void;
}) {
  const router = useRouter();
  const [busy, setBusy] = useState(false);
  const discard = async () => {
    props.onFailed(null);
    setBusy(true);
    const done = await callApi("DELETE", `/api/imports/${props.importId}`);
    if (done.ok) router.push("/import");
    else {
      setBusy(false);
      props.onFailed(done.error);
    }
    router.refresh();
  };
  return (
    <Button variant="default" onClick={() => void discard()} disabled={busy || props.disabled === true}>
      Discard
    </Button>
  );
}
