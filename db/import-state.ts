import { and, asc, eq, isNull, ne, or, sql } from "drizzle-orm";
import type { DepotSetup } from "../lib/schema/depot.ts";
import type { Settings } from "../lib/schema/settings.ts";
import type { Workshop } from "../lib/schema/workshop.ts";
import type { WrittenLayout, WrittenNote } from "../lib/schema/written-house.ts";
import { recordActivityWith } from "./activity.ts";
import { builtOn } from "./built-on.ts";
import { finishStaging, type ImportCounts } from "./comparison.ts";
import { changeDepotWith } from "./depots.ts";
import type { ImportRow } from "./imports.ts";
import { putLayoutsWith } from "./layouts.ts";
import { factsVersion, nextFactsVersion } from "./meta.ts";
import { putNotesWith } from "./notes.ts";
import { type PhotoLeft, type PhotoToPut, putPhotosWith } from "./photos.ts";
import { putPinsWith } from "./plan-choices.ts";
import { purgeImport } from "./purge.ts";
import { isRunning } from "./reader-process.ts";
import type { ImportState } from "./schema-imports.ts";
import { changeSettingsWith } from "./settings.ts";
import type { Q, Store } from "./store.ts";
import { changeWorkshopWith } from "./workshop.ts";

export type ImportStateError =
  | { readonly code: "unknown-import"; readonly importId: string }
  | { readonly code: "wrong-state"; readonly importId: string; readonly state: ImportState }
  /** Facts changed since its rows were judged, and one of them does not hold beside them: `row` says which and why. */
  | { readonly code: "no-longer-holds"; readonly importId: string; readonly row: string }
  /** `later`, as its title or file tells it, corrects or withdraws what this one told, and has to be undone first. */
  | { readonly code: "built-on"; readonly importId: string; readonly later: string }
  /** Facts changed since the comparison, and the counts with them: show them again, then commit again. */
  | { readonly code: "counts-changed"; readonly importId: string; readonly counts: ImportCounts };

/** As lib/result.ts has it; db imports nothing of lib but its shapes. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly error: ImportStateError };

/** Who does it, and when (an instant in UTC). */
export interface Doer {
  readonly by: string;
  readonly at: string;
}

/** What an import may bring beside its facts. */
export interface ComesAlong {
  readonly settings?: Partial<Settings>;
  readonly depots?: Readonly<Record<string, DepotSetup>>;
  /** Prices and pins; what it holds of depots stands in `depots`. */
  readonly workshop?: Workshop;
  readonly notes?: readonly WrittenNote[];
  readonly layouts?: readonly WrittenLayout[];
  readonly photos?: readonly PhotoToPut[];
}

/** What a commit took. */
interface Taken {
  readonly counts: ImportCounts;
  /** Of the photos that came along, those that were not kept. */
  readonly photosLeft: readonly PhotoLeft[];
}

interface ToCommit {
  readonly takeChanges: boolean;
  readonly along?: ComesAlong;
}

type Check = { readonly row: ImportRow } | { readonly error: ImportStateError };

async function inState(store: Store, q: Q, importId: string, states: readonly ImportState[]): Promise<Check> {
  const { imports } = store;
  const [row] = await q.select().from(imports).where(eq(imports.id, importId));
  if (!row) return { error: { code: "unknown-import", importId } };
  if (!states.includes(row.state)) return { error: { code: "wrong-state", importId, state: row.state } };
  return { row };
}

/**
 * Makes a staged import visible, whole, in one short transaction. Without `takeChanges` only its new rows count. Where
 * something else was committed or undone since the comparison, that is made again first; if its counts differ, nothing
 * is committed and the new counts come back. Before, `judge` is asked whether the rows still hold beside what is known
 * now: a sentence says which does not, and nothing is committed. What comes `along` with the import is written in
 * the same transaction.
 */
export async function commitImport(
  store: Store,
  importId: string,
  { by, at, takeChanges, along = {}, judge }: Doer & ToCommit & { judge?: () => Promise<string | null> },
): Promise<Outcome<Taken>> {
  for (;;) {
    const outcome = await commitIfCompared(store, importId, { by, at, takeChanges, along });
    if (outcome !== "compare-again") return outcome;
    const checked = await inState(store, store.q, importId, ["staged"]);
    if ("error" in checked) return { ok: false, error: checked.error };
    // Read before the judgement, as what is committed meanwhile is not part of it.
    const version = await factsVersion(store, store.q);
    const row = (await judge?.()) ?? null;
    if (row !== null) return { ok: false, error: { code: "no-longer-holds", importId, row } };
    const counts = await finishStaging(store, importId, { version });
    if (!sameCounts(counts, checked.row)) {
      return { ok: false, error: { code: "counts-changed", importId, counts } };
    }
  }
}

function commitIfCompared(
  store: Store,
  importId: string,
  { by, at, takeChanges, along = {} }: Doer & ToCommit,
): Promise<Outcome<Taken> | "compare-again"> {
  const { imports } = store;
  return store.tx(async (q) => {
    const checked = await inState(store, q, importId, ["staged"]);
    if ("error" in checked) return { ok: false, error: checked.error };
    if (checked.row.comparedVersion !== (await factsVersion(store, q))) return "compare-again";
    const rank = await nextFactsVersion(store, q);
    await q
      .update(imports)
      .set({ state: "committed", committedAt: at, committedBy: by, rank, takeChanges })
      .where(eq(imports.id, importId));
    await numberModelVersions(store, q, importId);
    const photosLeft = await writeAlong(store, q, along, { by, at });
    const counts = countsOf(checked.row);
    await recordActivityWith(store, q, {
      at,
      by,
      action: "import-committed",
      about: importId,
      detail: { ...counts, takeChanges },
    });
    return { ok: true, value: { counts, photosLeft } };
  });
}

async function writeAlong(
  store: Store,
  q: Q,
  { settings = {}, depots = {}, workshop, notes = [], layouts = [], photos = [] }: ComesAlong,
  doer: Doer,
): Promise<PhotoLeft[]> {
  await changeSettingsWith(store, q, settings, doer);
  for (const [depot, setup] of Object.entries(depots)) await changeDepotWith(store, q, depot, setup, doer);
  if (workshop !== undefined) {
    await changeWorkshopWith(store, q, workshop, doer);
    await putPinsWith(store, q, workshop.pins, doer);
  }
  if (notes.length > 0) await putNotesWith(store, q, notes);
  if (layouts.length > 0) await putLayoutsWith(store, q, layouts);
  return putPhotosWith(store, q, photos);
}

const countsOf = (row: ImportRow): ImportCounts => ({
  newRows: row.newRows,
  knownRows: row.knownRows,
  changedRows: row.changedRows,
  refusedRows: row.refusedRows,
  warnedRows: row.warnedRows,
});

const sameCounts = (a: ImportCounts, row: ImportRow) => JSON.stringify(countsOf(row)) === JSON.stringify(a);

async function numberModelVersions(store: Store, q: Q, importId: string): Promise<void> {
  const { engineModelVersions: versions } = store;
  const rows = await q
    .select({ id: versions.id, engineModel: versions.engineModel })
    .from(versions)
    .where(and(eq(versions.importId, importId), isNull(versions.version)))
    .orderBy(asc(versions.id));
  for (const { id, engineModel } of rows) {
    const [last] = await q
      .select({ version: sql<number | null>`max(${versions.version})` })
      .from(versions)
      .where(eq(versions.engineModel, engineModel));
    await q
      .update(versions)
      .set({ version: Number(last?.version ?? 0) + 1 })
      .where(eq(versions.id, id));
  }
}

/** Gives up an import that was never committed; its rows are deleted in batches. */
export async function discardImport(store: Store, importId: string, { by, at }: Doer): Promise<Outcome<null>> {
  const { imports } = store;
  const outcome = await store.tx(async (q): Promise<Outcome<null>> => {
    const checked = await inState(store, q, importId, ["staging", "staged"]);
    if ("error" in checked) return { ok: false, error: checked.error };
    await q.update(imports).set({ state: "discarded" }).where(eq(imports.id, importId));
    await recordActivityWith(store, q, { at, by, action: "import-discarded", about: importId, detail: null });
    return { ok: true, value: null };
  });
  if (outcome.ok) await purgeImport(store, importId);
  return outcome;
}

/**
 * Takes a committed import back, whole: what is visible is then as if it had never been. Corrections that a later
 * import made stand on their own, and so do rows that it repeated; where a test that was told again under another name was
 * corrected once more, the later correction goes first.
 */
export async function undoImport(store: Store, importId: string, { by, at }: Doer): Promise<Outcome<null>> {
  const { imports } = store;
  return store.tx(async (q) => {
    const checked = await inState(store, q, importId, ["committed"]);
    if ("error" in checked) return { ok: false, error: checked.error };
    const later = await builtOn(store, q, checked.row);
    if (later !== null) return { ok: false, error: { code: "built-on", importId, later } };
    await nextFactsVersion(store, q);
    await q.update(imports).set({ state: "undone", undoneAt: at, undoneBy: by }).where(eq(imports.id, importId));
    await recordActivityWith(store, q, { at, by, action: "import-undone", about: importId, detail: null });
    return { ok: true, value: null };
  });
}

/**
 * Cleans up after processes that were killed: discards imports whose rows never were complete, and those of forms, which
 * nobody is asked about before they are committed, where no process is at them any more (where that cannot be told, those
 * begun before `olderThan`), and deletes rows that can never become visible. Gives the imports discarded. Imports that wait
 * for a person stay.
 */
export async function sweepStaged(
  store: Store,
  { olderThan, by, at }: Doer & { olderThan: string },
): Promise<string[]> {
  const { imports } = store;
  const unfinished = await store.q
    .select({ id: imports.id, at: imports.at, reader: imports.reader })
    .from(imports)
    .where(or(eq(imports.state, "staging"), and(eq(imports.state, "staged"), ne(imports.origin, "file"))))
    .orderBy(asc(imports.at));
  const abandoned = unfinished.filter(({ at: begun, reader }) => !(isRunning(reader) ?? begun >= olderThan));
  const discarded: string[] = [];
  for (const { id } of abandoned) if ((await discardImport(store, id, { by, at })).ok) discarded.push(id);
  const unpurged = await store.q
    .select({ id: imports.id })
    .from(imports)
    .where(and(eq(imports.state, "discarded"), ne(imports.purged, true)));
  for (const { id } of unpurged) await purgeImport(store, id);
  return discarded;
}
