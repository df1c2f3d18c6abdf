import { JobError } from "./job-registry.ts";

/** What was asked for is in force, but the work ended before all assessments were made; `cause` says why. */
export class AssessmentsLeft extends JobError {
  constructor(done: string, cause: unknown) {
    super(`${done}; its assessments are made good at the next start.`, { cause });
  }
}

/** The value of `work`, which makes assessments after `done` has come true. */
export async function assessing<T>(done: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw new AssessmentsLeft(done, error);
  }
}
