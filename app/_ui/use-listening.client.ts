"use client";

import { useSyncExternalStore } from "react";

const neverChanges = () => () => {};

/** Whether the page's script runs: until then nothing hears a press, and what is typed is lost. */
export const useListening = (): boolean =>
  useSyncExternalStore(
    neverChanges,
    () => true,
    () => false,
  );
