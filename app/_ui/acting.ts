import { headers } from "next/headers";
import type { Act } from "../_jobs/progress.ts";
import { isAskedByOwnName, otherHostWords } from "../api/_http/from-here.ts";
import { viewerName } from "./viewer.ts";

/** Who does what a form asks for, and when; else a sentence that says why nothing is done. For server actions. */
export async function actingViewer(): Promise<Act | string> {
  // Next itself refuses an action that a page of another origin sent.
  if (!isAskedByOwnName((await headers()).get("host"), process.env["BORECAST_REACH"])) return otherHostWords;
  const by = await viewerName();
  return by === null
    ? "Give your name first: every change is kept with the name of the person who made it."
    : { by, now: new Date() };
}
