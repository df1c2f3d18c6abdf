"use client";

import type { ReactNode } from "react";
import { NeedsScript } from "./needs-script.tsx";
import { useListening } from "./use-listening.client.ts";

/**
 * The fields of a form that only script can send: shut until the script runs, so that nothing is typed or pressed on
 * a slow device before anything listens, and lost.
 */
export function ScriptedFields(props: { readonly children: ReactNode }) {
  const isListening = useListening();
  return (
    <>
      <NeedsScript />
      <fieldset className="scripted-fields" disabled={!isListening}>
        {props.children}
      </fieldset>
    </>
  );
}
