import { existsSync } from "node:fs";
import path from "node:path";
import { afterEach, expect, it, vi } from "vitest";
import { appStore } from "@/db/app-store.ts";
import { temporaryFile } from "./made-up.ts";

afterEach(() => vi.unstubAllEnvs());

it("makes no store while the pages are built, and opens one once for the process after that", async () => {
  const file = temporaryFile();
  vi.stubEnv("BORECAST_DATA", path.dirname(file));
  vi.stubEnv("NEXT_PHASE", "phase-production-build");
  await expect(appStore()).rejects.toThrow("while the pages are built");
  expect(existsSync(path.join(path.dirname(file), "borecast.db"))).toBe(false);
  vi.stubEnv("NEXT_PHASE", undefined);
  const store = await appStore();
  expect(await appStore()).toBe(store);
  await store.close();
});
