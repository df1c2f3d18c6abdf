"use server";

import { revalidatePath } from "next/cache";
import { cookies } from "next/headers";
import { preferencesSchema, preferencesText } from "../../lib/viewing/preferences.ts";
import { askedElsewhere, isAskedFromHere } from "./acting.ts";
import { notUnderstood } from "./asking/begun.ts";
import { preferencesCookie, viewerCookie, viewerNameSchema } from "./viewer-name.ts";

export interface NameOutcome {
  /** null: nothing was kept yet, or nothing now. */
  readonly kept: string | null;
  readonly problem: string | null;
}

const yearSeconds = 365 * 24 * 3600;

/** Keeps the name given in the form field `name` for a year, in a cookie that scripts cannot read. */
export async function keepViewerName(_before: NameOutcome, form: FormData): Promise<NameOutcome> {
  if (!(await isAskedFromHere())) return { kept: null, problem: askedElsewhere };
  const parsed = viewerNameSchema.safeParse(form.get("name"));
  if (!parsed.success) return { kept: null, problem: parsed.error.issues[0]?.message ?? "That is not a name." };
  await keepCookie(viewerCookie, parsed.data);
  return { kept: parsed.data, problem: null };
}

export interface FormatsOutcome {
  readonly kept: boolean;
  readonly problem: string | null;
}

/** Keeps the units and formats given in the form's fields for a year; a field that is missing has its default. */
export async function keepPreferences(_before: FormatsOutcome, form: FormData): Promise<FormatsOutcome> {
  if (!(await isAskedFromHere())) return { kept: false, problem: askedElsewhere };
  const given = Object.fromEntries(form);
  const parsed = preferencesSchema.safeParse({ ...given, ratePer: Number(given["ratePer"]) });
  if (!parsed.success) return { kept: false, problem: notUnderstood };
  await keepCookie(preferencesCookie, preferencesText(parsed.data));
  return { kept: true, problem: null };
}

async function keepCookie(name: string, value: string): Promise<void> {
  const jar = await cookies();
  jar.set(name, value, { maxAge: yearSeconds, httpOnly: true, sameSite: "lax", path: "/" });
  revalidatePath("/", "layout");
}
