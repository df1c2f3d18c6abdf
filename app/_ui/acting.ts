import { headers } from "next/headers";
import type { Act } from "../_jobs/progress.ts";
import { isFromHere } from "../api/_http/from-here.ts";
import { viewerName } from "./viewer.ts";

/**
 * Who does what a form asks for, and when; else a sentence that says why nothing is done. For server actions: Next itself
 * refuses one that a page of another origin sent, but not one whose page has none ("Origin: null").
 */
export async function actingViewer(): Promise<Act | string> {
  if (!(await isAskedFromHere())) return askedElsewhere;
  const by = await viewerName();
  if (by === null) return "Give your name first: every change is kept with the name of the person who made it.";
  return { by, now: new Date() };
}

/** Whether the action under way was asked for by a page of this server. */
export const isAskedFromHere = async (): Promise<boolean> => isFromHere(await headers());

export const askedElsewhere = "This was not asked for by a page of this server, so nothing was changed.";
