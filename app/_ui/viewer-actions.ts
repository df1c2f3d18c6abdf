"use server";

import { revalidatePath } from "next/cache";
import { cookies } from "next/headers";
import { viewerCookie, viewerNameSchema } from "./viewer-name.ts";

export interface NameOutcome {
  readonly kept: string | null;
  readonly problem: string | null;
}

const yearSeconds = 365 * 24 * 3600;

/** Keeps the name given in the form field `name` for a year, in a cookie that scripts cannot read. */
export async function keepViewerName(_before: NameOutcome, form: FormData): Promise<NameOutcome> {
  const parsed = viewerNameSchema.safeParse(form.get("name"));
  if (!parsed.success) return { kept: null, problem: parsed.error.issues[0]?.message ?? "That is not a name." };
  const jar = await cookies();
  jar.set(viewerCookie, parsed.data, { maxAge: yearSeconds, httpOnly: true, sameSite: "lax", path: "/" });
  revalidatePath("/", "layout");
  return { kept: parsed.data, problem: null };
}
