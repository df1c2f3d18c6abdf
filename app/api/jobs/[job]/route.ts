import { cancelJob, type JobView, jobView } from "../../../_jobs/job-registry.ts";
import { isBeforeCommit } from "../../../_jobs/phases.ts";
import { answer, answered, refusal } from "../../_http/answers.ts";
import { unknownJob } from "../../_http/unknown-job.ts";
import { writing } from "../../_http/writing.ts";

interface Context {
  readonly params: Promise<{ readonly job: string }>;
}

/** How far a job is. */
export const GET = (_request: Request, { params }: Context) =>
  answered(async () => {
    const view = jobView((await params).job);
    return view === null ? unknownJob() : answer(view);
  });

/**
 * What may be ended half way: what was read or only looked at is taken back; settings in force stay so, and the units that
 * were not come to are assessed at the next start or within the hour. What is being committed or undone is ended whole;
 * a plan and a budget are kept whole at their end or not at all; the load of the demo fleet from its commit on.
 */
const cancellable: ReadonlySet<string> = new Set(["stage", "preview", "settings", "day", "plan", "budget"]);

const mayEnd = ({ kind, progress }: JobView): boolean =>
  cancellable.has(kind) || (kind === "demo" && isBeforeCommit(progress));

/** Cancels a job. */
export const DELETE = (request: Request, { params }: Context) =>
  writing(request, async () => {
    const view = jobView((await params).job);
    if (view === null) return unknownJob();
    if (!mayEnd(view) && view.state === "running") {
      const canBeUndone =
        view.kind === "commit" || view.kind === "demo" || view.kind === "save" || view.kind === "altitude";
      const after = canBeUndone ? " Undo it once it is done." : " It runs to its end.";
      return refusal(409, `This cannot be cancelled half way.${after}`);
    }
    return cancelJob(view.id) ? answer({ cancelled: true }, 202) : refusal(409, "This has ended already.");
  });
