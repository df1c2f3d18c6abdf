"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { appStore } from "../../../db/app-store.ts";
import { layoutVersions, withdrawLayout } from "../../../db/layouts.ts";
import { layoutSchema } from "../../../lib/layout/layout.ts";
import { jsonIssueWords, jsonPathWords } from "../../../lib/schema/json-words.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { type GivenLayout, keepChange, layoutName, nameProblem } from "../../_jobs/kept-layouts.ts";
import { doerOf } from "../../_jobs/progress.ts";
import { actingViewer } from "../acting.ts";
import { notUnderstood } from "../asking/begun.ts";
import type { FieldProblems } from "../asking/field-problems.ts";
import { checkLayout } from "./check-layout.ts";
import { type KeptOutcome, nothingKept } from "./kept-outcome.ts";
import { largestLayoutFile } from "./limits.ts";

const name = z.string().max(2 * longestName);
const version = z.int();
const saving = z.object({ was: name, after: version, name, layout: z.unknown() });
const giving = z.object({ name, text: z.string(), onto: z.object({ was: name, after: version }).nullable() });

/** Keeps a layout as its form says, as the next version of the one that is called `was`. */
export async function saveKeptLayout(asked: z.input<typeof saving>): Promise<KeptOutcome> {
  const given = saving.safeParse(asked);
  if (!given.success) return { ...nothingKept, problem: notUnderstood };
  const { was, after } = given.data;
  const checked = checkLayout(given.data.layout);
  if (!checked.ok) {
    return { ...nothingKept, problems: { ...nameProblems(given.data.name), ...checked.problems }, gaps: checked.gaps };
  }
  return keep({ name: given.data.name, layout: checked.layout }, { was, after });
}

/** Keeps a layout that was given as a file: under a name that no other has, or as the next version of one. */
export async function keepGivenLayout(asked: z.input<typeof giving>): Promise<KeptOutcome> {
  const given = giving.safeParse(asked);
  if (!given.success) return { ...nothingKept, problem: notUnderstood };
  const { name, text, onto } = given.data;
  const file = (why: string): KeptOutcome => ({ ...nothingKept, problems: { file: why } });
  if (text.length > largestLayoutFile)
    return file("The file is too large for a layout. Choose one that was downloaded here.");
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return file("The file is no JSON. Choose one that was downloaded here, or that borecast layout show wrote.");
  }
  // What `borecast layout suggest --json` prints holds the layout among other things.
  const layout = typeof json === "object" && json !== null && "layout" in json ? json.layout : json;
  const parsed = layoutSchema.safeParse(layout, { reportInput: true });
  if (!parsed.success) {
    const [first] = parsed.error.issues;
    const where = first === undefined || first.path.length === 0 ? "it" : jsonPathWords(first.path);
    const why = first === undefined ? "is none" : jsonIssueWords(first);
    return file(`The file holds no layout that can be read: ${where} ${why}.`);
  }
  const checked = checkLayout(parsed.data);
  if (!checked.ok)
    return file(["The layout cannot be kept.", ...Object.values(checked.problems), ...checked.gaps].join(" "));
  return keep({ name, layout: checked.layout }, onto ?? { was: name.trim(), after: null });
}

/** Puts an older version of a layout back, or one that was withdrawn: as its next version. */
export async function putBackLayout(was: string, back: number, after: number): Promise<KeptOutcome> {
  if (!z.tuple([name, version, version]).safeParse([was, back, after]).success) {
    return { ...nothingKept, problem: notUnderstood };
  }
  const versions = await layoutVersions(await appStore(), was);
  const row = versions.find(({ id }) => id === back);
  if (row === undefined) return { ...nothingKept, problem: "This version is not on the books any more." };
  return keep({ name: was, layout: row.layout }, { was, after });
}

/** Withdraws a layout: files are not recognised by it any more. */
export async function withdrawKeptLayout(was: string): Promise<KeptOutcome> {
  if (!name.safeParse(was).success) return { ...nothingKept, problem: notUnderstood };
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothingKept, problem: act };
  const done = await withdrawLayout(await appStore(), was, doerOf(act));
  revalidatePath("/import/layouts", "layout");
  return done
    ? { ...nothingKept, saved: was }
    : { ...nothingKept, problem: "It is withdrawn already, or has another name now." };
}

const nameProblems = (given: string): FieldProblems =>
  layoutName(given) === null ? { name: `${sentenceWords(nameProblem)}.` } : {};

async function keep(
  given: GivenLayout,
  seen: { readonly was: string; readonly after: number | null },
): Promise<KeptOutcome> {
  const problems = nameProblems(given.name);
  if (problems["name"] !== undefined) return { ...nothingKept, problems };
  const act = await actingViewer();
  if (typeof act === "string") return { ...nothingKept, problem: act };
  const kept = await keepChange(await appStore(), given, { ...seen, ...act });
  revalidatePath("/import/layouts", "layout");
  if (kept.ok) return { ...nothingKept, saved: kept.value };
  if (!("code" in kept.error)) return { ...nothingKept, problem: `It cannot be kept: ${kept.error.join("; ")}.` };
  if (kept.error.code === "meanwhile") return { ...nothingKept, meanwhile: { by: kept.error.by } };
  const taken = "Another layout has this name, be it a withdrawn one. Choose another name, or change that one.";
  return { ...nothingKept, problems: { name: taken } };
}
