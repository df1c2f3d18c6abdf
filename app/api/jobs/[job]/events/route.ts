import { jobView, subscribeToJob } from "../../../../_jobs/job-registry.ts";
import { jobEvents } from "../../../_http/job-events.ts";
import { unknownJob } from "../../../_http/unknown-job.ts";

/** A job's progress as server-sent events, each a whole view of it as JSON; the last one says how it ended. */
export async function GET(_request: Request, { params }: { readonly params: Promise<{ readonly job: string }> }) {
  const { job } = await params;
  if (jobView(job) === null) return unknownJob();
  return new Response(
    jobEvents(
      (listener) => subscribeToJob(job, listener),
      () => performance.now(),
    ),
    { headers: { "content-type": "text/event-stream", "cache-control": "no-cache, no-transform" } },
  );
}
