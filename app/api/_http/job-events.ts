import type { JobView } from "../../_jobs/job-registry.ts";

type Subscribe = (listener: (view: JobView) => void) => (() => void) | null;

/** News within so many milliseconds of the last are passed over: a page shows no more, and the line stays free. */
const atMostEveryMs = 100;

/** The views of a job as server-sent events until it has ended or the reader goes. Change of phase and end always come. */
export function jobEvents(subscribe: Subscribe, clockMs: () => number): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  let unsubscribe: (() => void) | null = null;
  return new ReadableStream({
    start(controller) {
      let lastMs = Number.NEGATIVE_INFINITY;
      let phase: string | null = null;
      let ended = false;
      unsubscribe = subscribe((view) => {
        if (ended) return;
        const now = clockMs();
        const same = view.progress?.phase === phase;
        if (view.state === "running" && same && now - lastMs < atMostEveryMs) return;
        lastMs = now;
        phase = view.progress?.phase ?? null;
        controller.enqueue(encoder.encode(`data: ${JSON.stringify(view)}\n\n`));
        if (view.state === "running") return;
        ended = true;
        controller.close();
      });
      if (unsubscribe === null && !ended) controller.close();
    },
    cancel() {
      unsubscribe?.();
    },
  });
}
