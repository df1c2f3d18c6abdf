import { and, asc, count, eq, gt, inArray, isNull } from "drizzle-orm";
import type { RepairFact } from "../lib/schema/facts.ts";
import { mostPhotos, type PhotoType } from "../lib/schema/photo.ts";
import { recordActivityWith } from "./activity.ts";
import { visibleFacts } from "./comparison-facts.ts";
import { factKinds, keyOf } from "./fact-kinds.ts";
import { takeIds } from "./meta.ts";
import type { Schema } from "./schema.ts";
import type { Q, Store } from "./store.ts";

/** What names a repair. */
export type RepairNamed = Pick<RepairFact, "unit" | "date" | "scope" | "cylinders">;
export type PhotoRow = Pick<
  Schema["attachments"]["$inferSelect"],
  "id" | "unit" | "date" | "scope" | "cylinders" | "name" | "type" | "size" | "by" | "at"
>;

export interface PhotoGiven {
  readonly name: string;
  readonly type: PhotoType;
  readonly bytes: Buffer;
}

interface Act {
  readonly by: string;
  readonly at: string;
}

/** Bytes in a row: SQLite reads a row whole, and a photo is sent piece by piece. */
const partBytes = 1 << 18;

/** Keeps a photo with a repair that stands and gives its id; `unknown-repair`, `too-many`: nothing was kept. */
export function addPhoto(
  store: Store,
  repair: RepairNamed,
  photo: PhotoGiven,
  { by, at }: Act,
): Promise<number | PhotoFault> {
  return store.tx(async (q) => {
    const id = await addPhotoWith(store, q, repair, photo, { by, at });
    if (typeof id === "number") {
      const about = repair.unit;
      await recordActivityWith(store, q, { at, by, action: "photo-added", about, detail: { photo: id } });
    }
    return id;
  });
}

/** Why a photo is not kept: its repair does not stand, or has as many as one may have. */
export type PhotoFault = "unknown-repair" | "too-many";

/** Within a transaction of the caller's. */
async function addPhotoWith(
  store: Store,
  q: Q,
  repair: RepairNamed,
  { name, type, bytes }: PhotoGiven,
  { by, at }: Act,
): Promise<number | PhotoFault> {
  const { attachments, attachmentParts } = store;
  const key = keyOf(repair, factKinds.repairs.key);
  const [told] = (await visibleFacts(store, q, factKinds.repairs, { keys: [key] })).get(key) ?? [];
  if (told === undefined) return "unknown-repair";
  const { unit, date, scope, cylinders } = repair;
  const [known] = await q
    .select({ photos: count() })
    .from(attachments)
    .where(and(isOf(store, repair), isNull(attachments.withdrawnAt)));
  if ((known?.photos ?? 0) >= mostPhotos) return "too-many";
  const id = await takeIds(store, q, 1);
  const size = bytes.length;
  await q
    .insert(attachments)
    .values({ id, importId: told.importId, unit, date, scope, cylinders, name, type, size, by, at });
  for (let part = 0; part * partBytes < size; part++) {
    const piece = bytes.subarray(part * partBytes, (part + 1) * partBytes);
    await q.insert(attachmentParts).values({ attachmentId: id, part, bytes: piece });
  }
  return id;
}

/** A photo as another store of the app had it; its bytes are read when they are kept. */
export interface PhotoToPut extends RepairNamed, Act {
  readonly name: string;
  readonly read: () => Promise<Pick<PhotoGiven, "type" | "bytes">>;
}

/** A photo that was not kept, and why. */
export interface PhotoLeft {
  readonly photo: PhotoToPut;
  readonly why: PhotoFault;
}

/** Puts photos back as another store had them, within a transaction of the caller's; gives those that were not kept. */
export async function putPhotosWith(store: Store, q: Q, photos: readonly PhotoToPut[]): Promise<PhotoLeft[]> {
  const left: PhotoLeft[] = [];
  for (const photo of photos) {
    const kept = await addPhotoWith(store, q, photo, { name: photo.name, ...(await photo.read()) }, photo);
    if (typeof kept !== "number") left.push({ photo, why: kept });
  }
  return left;
}

const isOf = ({ attachments }: Store, { unit, date, scope, cylinders }: RepairNamed) =>
  and(
    eq(attachments.unit, unit),
    eq(attachments.date, date),
    eq(attachments.scope, scope),
    eq(attachments.cylinders, cylinders),
  );

/** Photos that are shown with the repairs of the units, in the order in which they were given. */
export async function photosOf(store: Store, units: readonly string[]): Promise<PhotoRow[]> {
  const { q, attachments } = store;
  const rows = await q
    .select()
    .from(attachments)
    .where(and(inArray(attachments.unit, [...units]), isNull(attachments.withdrawnAt)))
    .orderBy(asc(attachments.id));
  return await ofStanding(store, rows);
}

/** The photos among these whose repairs stand. */
async function ofStanding(store: Store, photos: readonly PhotoRow[]): Promise<PhotoRow[]> {
  if (photos.length === 0) return [];
  const keys = [...new Set(photos.map((photo) => keyOf(photo, factKinds.repairs.key)))];
  const standing = await visibleFacts(store, store.q, factKinds.repairs, { keys });
  return photos.filter((photo) => standing.has(keyOf(photo, factKinds.repairs.key)));
}

const photosAtATime = 100;

/** Every photo that is shown, in the order in which they were given, some at a time. */
export async function* shownPhotos(store: Store): AsyncGenerator<readonly PhotoRow[]> {
  const { q, attachments } = store;
  for (let after = 0; ; ) {
    const rows = await q
      .select()
      .from(attachments)
      .where(and(gt(attachments.id, after), isNull(attachments.withdrawnAt)))
      .orderBy(asc(attachments.id))
      .limit(photosAtATime);
    const last = rows.at(-1);
    if (last === undefined) return;
    yield await ofStanding(store, rows);
    after = last.id;
  }
}

/** A photo with its bytes; null: there is none that is shown. */
export async function photoWithBytes(store: Store, id: number): Promise<(PhotoRow & { bytes: Buffer }) | null> {
  const { q, attachments } = store;
  const [row] = await q.select({ unit: attachments.unit }).from(attachments).where(eq(attachments.id, id));
  const photo = row && (await photosOf(store, [row.unit])).find((one) => one.id === id);
  return photo === undefined ? null : { ...photo, bytes: await photoBytes(store, id) };
}

export async function photoBytes({ q, attachmentParts }: Store, id: number): Promise<Buffer> {
  const parts = await q
    .select({ bytes: attachmentParts.bytes })
    .from(attachmentParts)
    .where(eq(attachmentParts.attachmentId, id))
    .orderBy(asc(attachmentParts.part));
  return Buffer.concat(parts.map(({ bytes }) => bytes));
}

/** Takes a photo out of sight; its bytes stay. False: there is none, or it is out of sight already. */
export function withdrawPhoto(store: Store, id: number, { by, at }: Act): Promise<boolean> {
  const { attachments } = store;
  return store.tx(async (q) => {
    const [row] = await q
      .update(attachments)
      .set({ withdrawnAt: at, withdrawnBy: by })
      .where(and(eq(attachments.id, id), isNull(attachments.withdrawnAt)))
      .returning({ unit: attachments.unit });
    if (row === undefined) return false;
    await recordActivityWith(store, q, { at, by, action: "photo-withdrawn", about: row.unit, detail: { photo: id } });
    return true;
  });
}

/** The repairs of a unit that stand, latest first, as their keys name them. */
export async function repairsOf(store: Store, unit: string): Promise<RepairNamed[]> {
  const rows = await visibleFacts(store, store.q, factKinds.repairs, { subjects: [unit] });
  return [...rows.values()]
    .map(([top]) => top as unknown as RepairNamed)
    .map(({ date, scope, cylinders }) => ({ unit, date, scope, cylinders }))
    .sort((a, b) => (a.date < b.date ? 1 : -1));
}
