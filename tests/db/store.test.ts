import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import Database from "better-sqlite3";
import { expect, it } from "vitest";
import { recentActivity, recordActivity } from "@/db/activity.ts";
import { openStore } from "@/db/store.ts";
import { StoreError } from "@/db/store-error.ts";
import { at, by, temporaryFile, temporaryStore } from "./made-up.ts";

const codeOf = async (opening: Promise<unknown>): Promise<string> => {
  const error = await opening.then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(StoreError);
  return (error as StoreError).code;
};

it("makes the folder and the tables of a new database, and finds them again", async () => {
  const file = path.join(path.dirname(temporaryFile()), "new", "folder", "borecast.db");
  const first = await openStore(file);
  await recordActivity(first, { at, by, action: "began" });
  await first.close();
  const again = await temporaryStore(file);
  expect(await recentActivity(again, { limit: 5 })).toEqual([
    { id: 1, at, by, action: "began", about: null, detail: null },
  ]);
});

it("keeps what is said to be kept: write-ahead log, full synchronisation, foreign keys", async () => {
  const file = temporaryFile();
  const store = await temporaryStore(file);
  const pragma = (name: string) => store.tx(async (q) => Object.values((await q.all<object>(`pragma ${name}`))[0]!)[0]);
  expect(await pragma("journal_mode")).toBe("wal");
  expect(await pragma("synchronous")).toBe(2);
  expect(await pragma("foreign_keys")).toBe(1);
});

it("refuses a database from a newer version, and leaves it as it is", async () => {
  const file = temporaryFile();
  await (await openStore(file)).close();
  const raw = new Database(file);
  raw.prepare("insert into __drizzle_migrations (hash, created_at) values ('of the future', 9e12)").run();
  raw.close();
  await expect(openStore(file)).rejects.toThrow(/newer version/);
  expect(await codeOf(openStore(file))).toBe("newer-version");
});

it("refuses a file that is no database, and a database of another program", async () => {
  const text = temporaryFile();
  writeFileSync(text, "unit,test_date\n".repeat(100));
  expect(await codeOf(openStore(text))).toBe("not-a-database");
  const foreign = temporaryFile();
  const raw = new Database(foreign);
  raw.exec("create table recipes (name text)");
  raw.close();
  const before = readFileSync(foreign);
  expect(await codeOf(openStore(foreign))).toBe("not-a-database");
  expect(readFileSync(foreign).equals(before)).toBe(true);
  expect(readdirSync(path.dirname(foreign))).toEqual([path.basename(foreign)]);
});

it("says so where the disk is full in the middle of the work, and takes nothing of it", async () => {
  const store = await temporaryStore(temporaryFile());
  await store.tx(async (q) => {
    const [row] = await q.all<{ page_count: number }>("pragma page_count");
    await q.all(`pragma max_page_count = ${row?.page_count}`);
  });
  const filling = store.tx(async (q) => {
    for (let id = 1; id < 1000; id++) await q.insert(store.activity).values({ id, at, by, action: "x".repeat(4000) });
  });
  expect(await codeOf(filling)).toBe("not-writable");
  expect(await recentActivity(store, { limit: 5 })).toEqual([]);
});

it("says so where another program holds the database in the middle of the work", async () => {
  const file = temporaryFile();
  const store = await temporaryStore(file);
  await store.tx((q) => q.all("pragma busy_timeout = 1"));
  const other = new Database(file);
  other.exec("BEGIN IMMEDIATE");
  expect(await codeOf(recordActivity(store, { at, by, action: "kept waiting" }))).toBe("busy");
  other.close();
});

it("says so where the folder cannot be made", async () => {
  const file = temporaryFile();
  writeFileSync(file, "in the way");
  expect(await codeOf(openStore(path.join(file, "borecast.db")))).toBe("not-writable");
});

it("opens for two at once", async () => {
  const file = temporaryFile();
  const [one, two] = await Promise.all([openStore(file), openStore(file)]);
  await recordActivity(one, { at, by, action: "first" });
  await recordActivity(two, { at, by, action: "second" });
  expect((await recentActivity(two, { limit: 5 })).map((row) => row.action)).toEqual(["second", "first"]);
  await one.close();
  await two.close();
});

it("carries out a batch whole or not at all", async () => {
  const store = await temporaryStore(temporaryFile());
  const row = { at, by, action: "once" };
  const batch = store.atomically((q) => [
    q.insert(store.activity).values({ ...row, id: 1 }),
    q.insert(store.activity).values({ ...row, id: 1 }),
  ]);
  await expect(batch).rejects.toThrow();
  expect(await recentActivity(store, { limit: 5 })).toEqual([]);
});

it("takes nothing of a transaction that fails, and carries on with the next", async () => {
  const store = await temporaryStore(temporaryFile());
  const failing = store.tx(async (q) => {
    await q.insert(store.activity).values({ id: 1, at, by, action: "lost" });
    throw new Error("changed my mind");
  });
  await expect(failing).rejects.toThrow("changed my mind");
  await recordActivity(store, { at, by, action: "kept" });
  expect((await recentActivity(store, { limit: 5 })).map((r) => r.action)).toEqual(["kept"]);
});

it("refuses a transaction inside a transaction instead of waiting for itself", async () => {
  const store = await temporaryStore();
  await expect(store.tx(() => recordActivity(store, { at, by, action: "inner" }))).rejects.toThrow(/inside a tx/);
});

it("lets one writer at a time do its work", async () => {
  const store = await temporaryStore(temporaryFile());
  const order: string[] = [];
  const write = (name: string) =>
    store.tx(async (q) => {
      order.push(`${name} begins`);
      await q.select().from(store.activity);
      order.push(`${name} ends`);
    });
  await Promise.all([write("a"), write("b")]);
  expect(order).toEqual(["a begins", "a ends", "b begins", "b ends"]);
});

it("shows readers nothing of an open transaction", async () => {
  const store = await temporaryStore(temporaryFile());
  await store.tx(async (q) => {
    await q.insert(store.activity).values({ id: 1, at, by, action: "in the making" });
    expect(await recentActivity(store, { limit: 5 })).toEqual([]);
  });
  expect(await recentActivity(store, { limit: 5 })).toHaveLength(1);
});
