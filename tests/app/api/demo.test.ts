import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test, vi } from "vitest";
import { jobView, startJob } from "@/app/_jobs/job-registry.ts";
import { progressOf } from "@/app/_jobs/progress.ts";
import { POST } from "@/app/api/demo/route.ts";
import { DELETE } from "@/app/api/jobs/[job]/route.ts";
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

test.each([
  ["reading", 202],
  ["comparing", 202],
  ["committing", 409],
  ["assessing", 409],
] as const)("a load of the demo fleet that is %s is answered %i when it is to be cancelled", async (phase, status) => {
  let end: () => void = () => undefined;
  const id = startJob(
    "demo",
    ({ onProgress, signal }) =>
      new Promise<void>((resolve, reject) => {
        onProgress(progressOf(phase));
        end = resolve;
        signal.addEventListener("abort", () => reject(signal.reason));
      }),
  );
  onTestFinished(() => end());
  await vi.waitFor(() => expect(jobView(id)?.progress?.phase).toBe(phase));
  const request = new Request(`http://localhost:3000/api/jobs/${id}?by=A`, {
    method: "DELETE",
    headers: { host: "localhost:3000" },
  });
  const response = await DELETE(request, { params: Promise.resolve({ job: id }) });
  expect(response.status).toBe(status);
  await vi.waitFor(() => expect(jobView(id)?.state).toBe(status === 202 ? "cancelled" : "running"));
});
