import { jobView } from "../../_jobs/job-registry.ts";

const holder = globalThis as { borecastImportJobs?: Map<string, string> };
/** On globalThis because the bundler may load this file once for pages and once for routes. */
const jobs = (): Map<string, string> => {
  holder.borecastImportJobs ??= new Map();
  return holder.borecastImportJobs;
};

/** The job that commits or undoes an import now, so that a page opened meanwhile follows it; null: none runs. */
export function jobOfImport(importId: string): string | null {
  const job = jobs().get(importId);
  return job !== undefined && jobView(job)?.state === "running" ? job : null;
}

/** Notes the job of an import; what ended is forgotten. */
export function noteJobOfImport(importId: string, job: string): void {
  for (const [other, ended] of jobs()) if (jobView(ended)?.state !== "running") jobs().delete(other);
  jobs().set(importId, job);
}
