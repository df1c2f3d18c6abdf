import path from "node:path";
import { hasFacts } from "../../../db/facts.ts";
import { loadDemo } from "../../_jobs/demo.ts";
import { runningJobs, startJob } from "../../_jobs/job-registry.ts";
import { answer, refusal } from "../_http/answers.ts";
import { writing } from "../_http/writing.ts";

/** Loads the demo fleet into an empty store: `{ "job": id }`. */
export const POST = (request: Request) =>
  writing(request, async ({ store, act }) => {
    if (await hasFacts(store)) {
      return refusal(409, "There are facts already, and the demo fleet would mix with them. Nothing was changed.");
    }
    if (runningJobs().some((job) => job.kind === "demo")) {
      return refusal(409, "The demo fleet is being loaded right now.");
    }
    const folder = path.join(process.cwd(), "demo-data");
    return answer({ job: startJob("demo", (control) => loadDemo(store, folder, act.now, control)) }, 202);
  });
