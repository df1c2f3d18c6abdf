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

/** One that an assessment left out: a unit, or (`unit` null) something of the units that it went through together. */
export interface LeftOut extends NotAssessed {
  readonly unit: string | null;
  readonly units: readonly string[];
}

/** What an assessment came to. */
interface Pass {
  readonly done: ReadonlySet<string>;
  readonly notAssessed: readonly LeftOut[];
}

/** What is left out after later passes: of the units that they came to again only they tell. */
export const leftOutAfter = (before: readonly LeftOut[], ...passes: readonly Pass[]): readonly LeftOut[] => [
  ...before.filter(({ units }) => !units.every((unit) => passes.some(({ done }) => done.has(unit)))),
  ...passes.flatMap(({ notAssessed }) => notAssessed),
];
