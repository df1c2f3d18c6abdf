import { cookies } from "next/headers";
import { viewerCookie, viewerNameSchema } from "./viewer-name.ts";

/** The name that this viewer gave once; null: none yet. Every change names who made it. */
export async function viewerName(): Promise<string | null> {
  const kept = (await cookies()).get(viewerCookie)?.value;
  const parsed = viewerNameSchema.safeParse(kept);
  return parsed.success ? parsed.data : null;
}
