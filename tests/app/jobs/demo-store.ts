import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { onTestFinished } from "vitest";
import { loadDemo } from "@/app/_jobs/demo.ts";
import { openStore, type Store } from "@/db/store.ts";
import { demoFolder, now } from "./made-up-files.ts";

/**
 * Stores that hold the demo fleet as it was loaded at `now`, for tests that begin where the loading has ended. To load it
 * takes seconds: it is done once in a process, and each asker has a copy of the database.
 */

function newFolder(): string {
  return mkdtempSync(path.join(tmpdir(), "borecast-demo-"));
}

async function loadedBytes(): Promise<Buffer> {
  const folder = newFolder();
  try {
    const file = path.join(folder, "borecast.db");
    const store = await openStore(file);
    try {
      await loadDemo(store, demoFolder, now);
    } finally {
      await store.close();
    }
    return readFileSync(file);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

let loaded: Promise<Buffer> | undefined;

/** For all tests of a file: whoever opens it closes it, and with that it is gone. */
export async function openDemoStore(): Promise<Store> {
  loaded ??= loadedBytes();
  const bytes = await loaded;
  const folder = newFolder();
  const file = path.join(folder, "borecast.db");
  writeFileSync(file, bytes);
  const store = await openStore(file);
  return {
    ...store,
    close: async () => {
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** For one test, with whose end it goes. */
export async function demoStore(): Promise<Store> {
  const store = await openDemoStore();
  onTestFinished(() => store.close());
  return store;
}
