import { expect, it } from "vitest";
import { remembered } from "@/db/remembered.ts";
import { changeSettings } from "@/db/settings.ts";
import type { Store } from "@/db/store.ts";
import { at, by, temporaryFile, temporaryStore } from "./made-up.ts";

/** A read that tells how often it was made. */
function counting() {
  let reads = 0;
  const read = remembered("test-horizon", async ({ q, settings }: Store, { above }: { readonly above: number }) => {
    reads += 1;
    return (await q.select().from(settings)).filter(({ value }) => Number(value) > above).length;
  });
  return { read, reads: () => reads };
}

const horizon = (store: Store, horizonYears: number) => changeSettings(store, { horizonYears }, { by, at });

it.each([
  ["in a file", () => temporaryFile()],
  ["in memory", () => ":memory:"],
])("an answer is read once for as long as nothing changes, %s", async (_, file) => {
  const store = await temporaryStore(file());
  const { read, reads } = counting();
  expect(await read(store, { above: 0 })).toBe(0);
  expect(await read(store, { above: 0 })).toBe(0);
  expect(reads()).toBe(1);

  await horizon(store, 4);
  expect(await read(store, { above: 0 })).toBe(1);
  expect(reads()).toBe(2);
  // Another question is another answer.
  expect(await read(store, { above: 9 })).toBe(0);
  expect(await read(store, { above: 0 })).toBe(1);
  expect(reads()).toBe(3);
});

it("a change by another connection to the same file is seen, one that was rolled back is not", async () => {
  const file = temporaryFile();
  const [store, other] = [await temporaryStore(file), await temporaryStore(file)];
  const { read, reads } = counting();
  await read(store, { above: 0 });
  await expect(
    other.tx(async () => {
      throw new Error("no");
    }),
  ).rejects.toThrow("no");
  await read(store, { above: 0 });
  expect(reads()).toBe(1);
  await horizon(other, 4);
  expect(await read(store, { above: 0 })).toBe(1);
});

it("stores have answers of their own", async () => {
  const [one, two] = [await temporaryStore(), await temporaryStore()];
  const { read } = counting();
  await horizon(one, 4);
  expect([await read(one, { above: 0 }), await read(two, { above: 0 })]).toEqual([1, 0]);
});

it("a failure is told to those who asked and is tried again", async () => {
  const store = await temporaryStore();
  let fails = true;
  const read = remembered("test-failing", async (_: Store) => {
    if (fails) throw new Error("disk");
    return 7;
  });
  await expect(read(store)).rejects.toThrow("disk");
  fails = false;
  expect(await read(store)).toBe(7);
});
