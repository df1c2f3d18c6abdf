"use client";

import { createContext, type ReactNode, useContext, useMemo } from "react";
import { type Formats, formatsOf } from "../../lib/viewing/formats.ts";
import { type Preferences, plainPreferences } from "../../lib/viewing/preferences.ts";

const FormatsContext = createContext<Formats>(formatsOf(plainPreferences));

/** Gives the viewer's formats to all client components below. */
export function FormatsProvider(props: { readonly preferences: Preferences; readonly children: ReactNode }) {
  const formats = useMemo(() => formatsOf(props.preferences), [props.preferences]);
  return <FormatsContext value={formats}>{props.children}</FormatsContext>;
}

/** Below it sentences leave these names as people typed them. */
export function KnownNames(props: { readonly names: readonly string[]; readonly children: ReactNode }) {
  const outer = useFormats();
  const formats = useMemo(() => outer.knowing(props.names), [outer, props.names]);
  return <FormatsContext value={formats}>{props.children}</FormatsContext>;
}

/** The viewer's formats, for client components; server components call `viewerFormats`. */
export const useFormats = (): Formats => useContext(FormatsContext);
