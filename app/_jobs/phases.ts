/** What a job is busy with, in the order in which the phases come. */
export type Phase =
  | "keeping"
  | "reading"
  | "checking"
  | "comparing"
  | "committing"
  | "gathering"
  | "fitting"
  | "assessing"
  | "planning"
  | "drawing";

const beforeCommit: readonly Phase[] = ["keeping", "reading", "checking", "comparing"];

/** Whether a job that takes files in has kept nothing yet; null: it has not told how far it is. */
export const isBeforeCommit = (progress: { readonly phase: Phase } | null): boolean =>
  progress === null || beforeCommit.includes(progress.phase);
