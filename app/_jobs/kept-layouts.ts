import { z } from "zod";
import { knownFleet } from "../../db/fleet-known.ts";
import { keptLayout, layoutsOfHeaders, saveLayout } from "../../db/layouts.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { headerKey, headerKeys } from "../../lib/layout/header-key.ts";
import { type Layout, layoutSchema } from "../../lib/layout/layout.ts";
import type { Sample, SuggestContext } from "../../lib/layout/suggestion.ts";
import { fail, ok, type Result } from "../../lib/result.ts";
import { longestName } from "../../lib/schema/longest-name.ts";
import { lastDateTaken } from "./as-of.ts";
import { type Act, doerOf } from "./progress.ts";

/** Layouts that are kept, between the store (JSON) and `lib/layout`. */

const controls = /\p{Cc}/u;
const nameSchema = z
  .string()
  .trim()
  .min(1)
  .max(longestName)
  .refine((name) => !controls.test(name));

/** The kept layout of that name; null: there is none that holds and that this version can read. */
export async function layoutNamed(store: Store, name: string): Promise<Layout | null> {
  const row = await keptLayout(store, name);
  const parsed = layoutSchema.safeParse(row?.layout);
  return parsed.success ? parsed.data : null;
}

/** Kept layouts whose header the file has, by name. */
export async function layoutsOfFile(
  store: Store,
  sample: Sample,
): Promise<readonly { readonly name: string; readonly layout: Layout }[]> {
  const rows = await layoutsOfHeaders(store, headerKeys(sample.records));
  return rows.flatMap(({ name, layout }) => {
    const parsed = layoutSchema.safeParse(layout);
    return parsed.success ? [{ name, layout: parsed.data }] : [];
  });
}

/** What is wrong with a layout that somebody gave, each as the end of a sentence. */
export type LayoutProblems = readonly string[];

/** Keeps a layout given as JSON under a name, as its newest version; gives the layout as it was understood. */
export async function keepLayout(
  store: Store,
  given: { readonly name: string; readonly layout: unknown },
  act: Act,
): Promise<Result<Layout, LayoutProblems>> {
  const name = nameSchema.safeParse(given.name);
  if (!name.success) return fail([`its name must have 1 to ${longestName} letters, and none that nobody can see`]);
  const parsed = layoutSchema.safeParse(given.layout);
  if (!parsed.success) {
    return fail(
      parsed.error.issues.map(({ path, message }) => `${path.length === 0 ? "" : `${path.join(".")}: `}${message}`),
    );
  }
  const header = headerKey(parsed.data.columns.map((column) => column.header));
  await saveLayout(store, { name: name.data, header, layout: parsed.data }, doerOf(act));
  return ok(parsed.data);
}

/** What the store knows that helps `suggestLayout`. */
export async function suggestContext(store: Store, now: Date): Promise<SuggestContext> {
  const today = lastDateTaken(await readSettings(store), now);
  const { models, units } = await knownFleet(store, { today });
  return {
    today,
    models: new Set(models.keys()),
    units: new Map([...units].map(([unit, { meterUnit }]) => [unit, meterUnit])),
  };
}
