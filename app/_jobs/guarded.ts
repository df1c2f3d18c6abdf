import { fail, ok, type Result } from "../../lib/result.ts";

/** What could not be assessed, and why, as a sentence without its full stop. */
export interface NotAssessed {
  readonly words: string;
  readonly cause: unknown;
}

/** The value of `work` for one thing; where it throws, that in words, so that the others of its fleet go on. */
export function guarded<T>(thing: string, work: () => T): Result<T, NotAssessed> {
  try {
    return ok(work());
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    return fail({ words: `${thing} could not be assessed: ${why}`, cause });
  }
}
