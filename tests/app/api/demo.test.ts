import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test, vi } from "vitest";
import { startJob } from "@/app/_jobs/job-registry.ts";
import { POST } from "@/app/api/demo/route.ts";
import { appStore } from "@/db/app-store.ts";

test("a second load of the demo fleet is refused while the first one runs", async () => {
  const folder = mkdtempSync(path.join(tmpdir(), "borecast-demo-"));
  vi.stubEnv("BORECAST_DATA", folder);
  const store = await appStore();
  let end: () => void = () => undefined;
  const loading = new Promise<void>((resolve) => {
    end = resolve;
  });
  startJob("demo", () => loading);
  onTestFinished(async () => {
    end();
    await store.close();
    vi.unstubAllEnvs();
    rmSync(folder, { recursive: true, force: true });
  });
  const response = await POST(
    new Request("http://localhost:3000/api/demo?by=A", { method: "POST", headers: { host: "localhost:3000" } }),
  );
  expect([response.status, await response.json()]).toEqual([
    409,
    { error: "The demo fleet is being loaded right now." },
  ]);
});
