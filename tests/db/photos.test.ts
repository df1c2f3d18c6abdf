import { expect, it } from "vitest";
import { commitImport, undoImport } from "@/db/import-state.ts";
import { addPhoto, photosOf, photoWithBytes, repairsOf, withdrawPhoto } from "@/db/photos.ts";
import { mostPhotos, photoTypeOf } from "@/lib/schema/photo.ts";
import { at, by, repair, stage, take, temporaryStore } from "./made-up.ts";

const doer = { by, at };
const photo = (size = 10) => ({ name: "seat.jpg", type: "image/jpeg" as const, bytes: Buffer.alloc(size, 7) });
const named = ({ unit, date, scope, cylinders }: ReturnType<typeof repair>) => ({ unit, date, scope, cylinders });

it("a photo is shown while its repair stands, byte for byte, however large it is", async () => {
  const store = await temporaryStore();
  const told = repair({ cylinders: [1, 2] });
  const importId = await take(store, { repairs: [told, repair()] });
  const bytes = Buffer.from(Array.from({ length: 700_001 }, (_, i) => i % 251));
  const id = await addPhoto(store, named(told), { ...photo(), bytes }, doer);
  if (typeof id !== "number") throw new Error(id);
  expect(await photosOf(store, ["V-1"])).toMatchObject([{ id, cylinders: [1, 2], size: bytes.length, by }]);
  expect((await photoWithBytes(store, id))?.bytes.equals(bytes)).toBe(true);
  expect(await photosOf(store, ["V-2"])).toEqual([]);
  expect(await repairsOf(store, "V-1")).toHaveLength(2);

  await undoImport(store, importId, doer);
  expect(await photosOf(store, ["V-1"])).toEqual([]);
  expect(await photoWithBytes(store, id)).toBeNull();
  // Told again by another import, the repair has its photos again.
  await take(store, { repairs: [told] });
  expect(await photosOf(store, ["V-1"])).toMatchObject([{ id }]);
});

it("no photo without a repair that stands, and no more than a few", async () => {
  const store = await temporaryStore();
  const told = repair();
  expect(await addPhoto(store, named(told), photo(), doer)).toBe("unknown-repair");
  const { importId } = await stage(store, { repairs: [told] });
  expect(await addPhoto(store, named(told), photo(), doer)).toBe("unknown-repair");
  await commitImport(store, importId, { ...doer, takeChanges: true });
  const given = await Promise.all(
    Array.from({ length: mostPhotos + 1 }, () => addPhoto(store, named(told), photo(), doer)),
  );
  expect(given.filter((one) => one === "too-many")).toHaveLength(1);
  const [first] = given;
  if (typeof first !== "number") throw new Error("not kept");
  expect(await withdrawPhoto(store, first, doer)).toBe(true);
  expect(await withdrawPhoto(store, first, doer)).toBe(false);
  expect(await photoWithBytes(store, first)).toBeNull();
  expect(await addPhoto(store, named(told), photo(), doer)).toEqual(expect.any(Number));
});

it("what an image is, its first bytes say", () => {
  const bytes = (...given: (number | string)[]) =>
    Buffer.concat(given.map((one) => (typeof one === "string" ? Buffer.from(one, "latin1") : Buffer.from([one]))));
  expect(photoTypeOf(bytes(0xff, 0xd8, 0xff, 0xe0, "JFIF"))).toBe("image/jpeg");
  expect(photoTypeOf(bytes(0x89, "PNG\r\n", 0x1a, "\n"))).toBe("image/png");
  expect(photoTypeOf(bytes("RIFF", 0, 0, 0, 0, "WEBPVP8 "))).toBe("image/webp");
  for (const other of ["", "GIF89a", "<svg xmlns='x'/>", "RIFF", "RIFF0000WAVE", "\u0089PN", "<html>", "%PDF-1.7"]) {
    expect(photoTypeOf(bytes(other)), other).toBeNull();
  }
});
