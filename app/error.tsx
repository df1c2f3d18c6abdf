"use client";

import { useRouter } from "next/navigation";
import { startTransition } from "react";

/** A page that could not be made. The frame round it stays. */
export default function PageError({
  error,
  reset,
}: {
  readonly error: Error & { digest?: string };
  readonly reset: () => void;
}) {
  const router = useRouter();
  // The error came from the server, so the page is asked for anew before it is drawn again.
  const tryAgain = () =>
    startTransition(() => {
      router.refresh();
      reset();
    });
  return (
    <div className="page">
      <div className="error-note" role="alert">
        <h1 className="finding">This page could not be made.</h1>
        <p>What was kept before is unchanged: a change is kept whole or not at all.</p>
        <p>
          Try again. If it fails once more, tell whoever looks after this installation
          {error.digest === undefined ? "." : `; the server’s log names the cause under ${error.digest}.`}
        </p>
        <button type="button" className="button-link" data-variant="filled" onClick={tryAgain}>
          Try again
        </button>
      </div>
    </div>
  );
}
