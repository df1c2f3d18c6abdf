"use client";

import { type ReactNode, useSyncExternalStore } from "react";
import { NeedsScript } from "./needs-script.tsx";

const neverChanges = () => () => {};

/**
 * The fields of a form that only script can send: shut until the script runs, so that nothing is typed or pressed on
 * a slow device before anything listens, and lost.
 */
export function ScriptedFields(props: { readonly children: ReactNode }) {
  const isListening = useSyncExternalStore(
    neverChanges,
    () => true,
    () => false,
  );
  return (
    <>
      <NeedsScript />
      <fieldset className="scripted-fields" disabled={!isListening}>
        {props.children}
      </fieldset>
    </>
  );
}
