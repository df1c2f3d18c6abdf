import { cookies } from "next/headers";
import { cache } from "react";
import { type Formats, formatsOf } from "../../lib/viewing/formats.ts";
import { type Preferences, readPreferences } from "../../lib/viewing/preferences.ts";
import { preferencesCookie, viewerCookie, viewerNameSchema } from "./viewer-name.ts";

/** The name that this viewer gave once; null: none yet. Every change names who made it. */
export async function viewerName(): Promise<string | null> {
  const kept = (await cookies()).get(viewerCookie)?.value;
  const parsed = viewerNameSchema.safeParse(kept);
  return parsed.success ? parsed.data : null;
}

/** How this viewer wants figures written; read once for each request. */
const viewerPreferences = cache(
  async (): Promise<Preferences> => readPreferences((await cookies()).get(preferencesCookie)?.value),
);

/** This viewer's formats, for server components; client components call `useFormats`. */
export const viewerFormats = cache(async (): Promise<Formats> => formatsOf(await viewerPreferences()));
