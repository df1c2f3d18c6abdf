import { and, asc, eq, inArray, isNull, max, or } from "drizzle-orm";
import type { PlanScope } from "../lib/schema/kept-plan.ts";
import { recordActivityWith } from "./activity.ts";
import { forChunks } from "./chunks.ts";
import { takeIds } from "./meta.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import type { ChoiceEnd } from "./schema-plan.ts";
import type { Q, Store } from "./store.ts";

export type PlanChoice = Schema["planChoices"]["$inferSelect"];

/** What people want the plan to keep to, in the order in which they said it. */
export const choicesInForce = remembered(
  "plan-choices",
  async ({ q, planChoices }: Store): Promise<PlanChoice[]> =>
    await q.select().from(planChoices).where(isNull(planChoices.endedAt)).orderBy(asc(planChoices.id)),
);

/**
 * Pins of some units that stood until their repair was made: those in force, and those that ended because it was put on file. In the
 * order in which they were told.
 */
export const pinsThatStood = (
  { q, planChoices: { unit, kind, endedAt, endedBecause, id }, planChoices }: Store,
  units: readonly string[],
): Promise<PlanChoice[]> =>
  forChunks(units, (some) =>
    q
      .select()
      .from(planChoices)
      .where(and(inArray(unit, some), eq(kind, "pin"), or(isNull(endedAt), eq(endedBecause, "repaired"))))
      .orderBy(asc(id)),
  );

/** When anybody last chose anything or took it back; null: never. */
export async function lastChosenAt({ q, planChoices }: Store): Promise<string | null> {
  const [row] = await q.select({ at: max(planChoices.at), endedAt: max(planChoices.endedAt) }).from(planChoices);
  const [at, endedAt] = [row?.at ?? null, row?.endedAt ?? null];
  return at !== null && endedAt !== null && endedAt > at ? endedAt : at;
}

/** A repair pinned to the week that begins on `date`, or dropped where that is null. */
export interface NewChoice {
  readonly scope: PlanScope;
  readonly date: string | null;
}

/**
 * What a person wants of one unit's repairs from now on, in place of all that was said of them before; nothing: the plan
 * decides again. `known`: keys of the unit's repairs on file. `seen`: the ids of the choices that the person saw in force, `plan`: the number of
 * the plan that they saw so (left out: whichever); where others are, nothing is written: false.
 */
export function chooseForUnit(
  store: Store,
  {
    unit,
    chosen,
    seen,
    known,
    plan,
  }: {
    readonly unit: string;
    readonly chosen: readonly NewChoice[];
    readonly seen: readonly number[];
    readonly known: readonly string[];
    readonly plan?: number;
  },
  { by, at }: { readonly by: string; readonly at: string },
): Promise<boolean> {
  const { planChoices, plans } = store;
  return store.tx(async (q) => {
    const [newest] = await q.select({ id: max(plans.id) }).from(plans);
    if (plan !== undefined && newest?.id !== plan) return false;
    const before = await q
      .select()
      .from(planChoices)
      .where(and(eq(planChoices.unit, unit), isNull(planChoices.endedAt)))
      .orderBy(asc(planChoices.id));
    if (before.length !== seen.length || before.some(({ id }, i) => id !== seen[i])) return false;
    const because = chosen.length === 0 ? "taken-back" : "replaced";
    await endChoicesWith(
      store,
      q,
      before.map(({ id }) => id),
      { by, at, because },
    );
    let id = chosen.length === 0 ? 0 : await takeIds(store, q, chosen.length);
    for (const { scope, date } of chosen) {
      const kind = date === null ? "drop" : "pin";
      // What held before and still does was chosen with what was on file then.
      const held = before.find((choice) => choice.scope === scope && choice.date === date);
      await q.insert(planChoices).values({ id: id++, unit, kind, scope, date, known: held?.known ?? known, by, at });
    }
    const detail = {
      pins: chosen.filter(({ date }) => date !== null).length,
      drops: chosen.filter(({ date }) => date === null).length,
    };
    await recordActivityWith(store, q, { at, by, action: "plan-choice", about: unit, detail });
    return true;
  });
}

/** Pins that come with a whole store, into one where nothing was said of a repair yet. */
export async function putPinsWith(
  store: Store,
  q: Q,
  pins: readonly { readonly unit: string; readonly scope: PlanScope; readonly date: string }[],
  doer: { readonly by: string; readonly at: string },
): Promise<void> {
  if (pins.length === 0) return;
  const first = await takeIds(store, q, pins.length);
  const rows = pins.map((pin, i) => ({ ...pin, id: first + i, kind: "pin" as const, ...doer }));
  await q.insert(store.planChoices).values(rows);
  await recordActivityWith(store, q, { ...doer, action: "plan-choice", about: null, detail: { pins: pins.length } });
}

/** Ends choices that hold no longer. */
export const endChoices = (
  store: Store,
  ids: readonly number[],
  told: { readonly by: string; readonly at: string; readonly because: ChoiceEnd },
): Promise<void> => store.tx((q) => endChoicesWith(store, q, ids, told));

/** Ends choices; those that ended before stay as they are. */
async function endChoicesWith(
  { planChoices }: Store,
  q: Q,
  ids: readonly number[],
  { by, at, because }: { readonly by: string; readonly at: string; readonly because: ChoiceEnd },
): Promise<void> {
  if (ids.length === 0) return;
  await q
    .update(planChoices)
    .set({ endedAt: at, endedBy: by, endedBecause: because })
    .where(and(inArray(planChoices.id, [...ids]), isNull(planChoices.endedAt)));
}
