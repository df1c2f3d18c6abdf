import { z } from "zod";
import { knownFleet } from "../../db/fleet-known.ts";
import { changeLayout, keptLayout, layoutsOfHeaders, type NotKept, saveLayout } from "../../db/layouts.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { headerKey, headerKeys } from "../../lib/layout/header-key.ts";
import { type Layout, layoutSchema } from "../../lib/layout/layout.ts";
import type { Sample, SuggestContext } from "../../lib/layout/suggestion.ts";
import { fail, ok, type Result } from "../../lib/result.ts";
import { jsonIssueWords, jsonPathWords } from "../../lib/schema/json-words.ts";
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

/** What is wrong with a layout that somebody gave, each as a sentence without its full stop. */
export type LayoutProblems = readonly string[];

export interface GivenLayout {
  readonly name: string;
  readonly layout: unknown;
}

export const nameProblem = `its name must have 1 to ${longestName} letters, and none that nobody can see`;

/** The name as it is kept; null: it is none. */
export const layoutName = (given: string): string | null => nameSchema.safeParse(given).data ?? null;

/** A layout given as JSON, as the store keeps it. */
function understood(given: GivenLayout): Result<Kept, LayoutProblems> {
  const name = layoutName(given.name);
  if (name === null) return fail([nameProblem]);
  const parsed = layoutSchema.safeParse(given.layout, { reportInput: true });
  if (!parsed.success) {
    return fail(
      parsed.error.issues.map((issue) =>
        [issue.path.length === 0 ? "it" : jsonPathWords(issue.path), jsonIssueWords(issue)].join(" "),
      ),
    );
  }
  const header = headerKey(parsed.data.columns.map((column) => column.header));
  return ok({ name, header, layout: parsed.data });
}

interface Kept {
  readonly name: string;
  readonly header: string;
  readonly layout: Layout;
}

/** Keeps a layout given as JSON under a name, as its newest version; gives the layout as it was understood. */
export async function keepLayout(store: Store, given: GivenLayout, act: Act): Promise<Result<Layout, LayoutProblems>> {
  const kept = understood(given);
  if (!kept.ok) return kept;
  await saveLayout(store, kept.value, doerOf(act));
  return ok(kept.value.layout);
}

/**
 * Keeps a layout as the next version of the one that is called `was`, under its own or another name; `after`: the version
 * that the person saw last, null where there is none yet. Gives the name that it has now.
 */
export async function keepChange(
  store: Store,
  given: GivenLayout,
  { was, after, ...act }: Act & { readonly was: string; readonly after: number | null },
): Promise<Result<string, LayoutProblems | NotKept>> {
  const kept = understood(given);
  if (!kept.ok) return kept;
  const refused = await changeLayout(store, kept.value, { was, after, ...doerOf(act) });
  return refused === null ? ok(kept.value.name) : fail(refused);
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
