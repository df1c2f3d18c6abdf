import { describe, expect, it, onTestFinished, vi } from "vitest";
import {
  cancelJob,
  JobError,
  type JobView,
  jobView,
  runningJobs,
  startJob,
  subscribeToJob,
} from "@/app/_jobs/job-registry.ts";
import { breather, progressOf } from "@/app/_jobs/progress.ts";

/** The job's news up to its end. */
function newsOf(id: string): Promise<JobView[]> {
  return new Promise((resolve) => {
    const news: JobView[] = [];
    subscribeToJob(id, (view) => {
      news.push(view);
      if (view.state !== "running") resolve(news);
    });
  });
}

describe("a job", () => {
  it("tells its progress and what it gave, and can still be asked for afterwards", async () => {
    const id = startJob("stage", async ({ onProgress }) => {
      onProgress(progressOf("reading", { rows: 7 }));
      return { newRows: 7 };
    });
    expect(runningJobs().map((job) => job.id)).toContain(id);
    const news = await newsOf(id);
    expect(news.map(({ state, progress }) => [state, progress?.rows ?? null])).toEqual([
      ["running", null],
      ["running", 7],
      ["done", 7],
    ]);
    expect(jobView(id)).toEqual({ ...news.at(-1), kind: "stage", result: { newRows: 7 }, error: null });
    expect(runningJobs().map((job) => job.id)).not.toContain(id);
    expect(cancelJob(id)).toBe(false);
  });

  it("keeps why it failed as a sentence for a person", async () => {
    const id = startJob("commit", () => Promise.reject(new JobError("This import is not known.")));
    expect((await newsOf(id)).at(-1)).toMatchObject({ state: "failed", error: "This import is not known." });
  });

  it("shows nobody what was not foreseen, but the console", async () => {
    const error = vi.spyOn(console, "error").mockImplementation(() => undefined);
    onTestFinished(() => error.mockRestore());
    const id = startJob("commit", () => Promise.reject(new Error("column 7 of secrets")));
    const { error: told } = (await newsOf(id)).at(-1) as JobView;
    expect(told).not.toContain("secrets");
    expect(error).toHaveBeenCalledWith(new Error("column 7 of secrets"));
  });

  it("ends at its next pause when it is cancelled", async () => {
    let pauses = 0;
    const id = startJob("stage", async ({ signal, onProgress }) => {
      const breathe = breather(signal);
      for (; ; pauses++) {
        if (pauses === 3) cancelJob(id);
        onProgress(progressOf("reading", { rows: pauses }));
        await breathe();
      }
    });
    expect((await newsOf(id)).at(-1)).toMatchObject({ state: "cancelled", error: null });
    expect(pauses).toBe(3);
  });

  it("stops calling who has gone away", async () => {
    let heard = 0;
    const id = startJob("stage", async ({ onProgress }) => onProgress(progressOf("reading")));
    const leave = subscribeToJob(id, () => {
      heard += 1;
    });
    leave?.();
    await newsOf(id);
    expect(heard).toBe(1);
    expect(subscribeToJob("no-such-job", () => undefined)).toBeNull();
  });
});
