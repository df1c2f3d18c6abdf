import type { Act } from "../_jobs/progress.ts";
import { viewerName } from "./viewer.ts";

/**
 * Who does what a form asks for, and when; else a sentence that says why nothing is done. For server actions: Next itself
 * refuses one that a page of another origin sent.
 */
export async function actingViewer(): Promise<Act | string> {
  const by = await viewerName();
  if (by === null) return "Give your name first: every change is kept with the name of the person who made it.";
  return { by, now: new Date() };
}
