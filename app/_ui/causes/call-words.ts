import { type Call, type CalledClass, calledClasses, type FoundClass } from "../../../lib/cause/calls.ts";
import { wilsonInterval } from "../../../lib/statistics/scores.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";

/** What the page of calls says of strip-downs, and counts of them. */

export const classWords = {
  "top-end": "top-end",
  "bottom-end": "bottom-end",
  both: "both",
  sound: "sound",
  "test-set-up": "the test itself",
} as const satisfies Record<CalledClass | FoundClass, string>;

/** Below so many outcomes a share says more than is known: they are counted. */
const enoughForShare = 20;

/** Right calls of all those that were made: counts, and from 20 on a share with its 95 % interval (Wilson). */
export function rightWords(f: Formats, calls: readonly Call[]): string {
  const made = calls.filter(({ right }) => right !== null);
  if (made.length === 0) return "nothing was called before";
  const right = made.filter((call) => call.right === true).length;
  const counted = `${f.number(right)} of ${f.number(made.length)} right`;
  if (made.length < enoughForShare) return counted;
  const [low, high] = wilsonInterval(right, made.length);
  return `${counted}, ${f.percent((100 * right) / made.length)} (${f.number(100 * low)} to ${f.percent(100 * high)})`;
}

/** How many were called so and found so; `called` null: never tested before. */
export const countOf = (calls: readonly Call[], called: CalledClass | null, found: FoundClass): number =>
  calls.filter((call) => (call.called?.class ?? null) === called && call.found === found).length;

/** Rows of the table of calls: those never called stand last, where there are any. */
export const calledRows = (calls: readonly Call[]): readonly (CalledClass | null)[] =>
  calls.some(({ called }) => called === null) ? [...calledClasses, null] : calledClasses;

/** What the page is asked for: all engine models, or one, which may be unknown. */
export interface AskedModel {
  readonly id: string;
  readonly isKnown: boolean;
}

/** The finding of the page where there is no call to show; `others`: calls of other engine models. */
export function noCallsFinding(f: Formats, asked: AskedModel | null, others: number): string {
  if (asked === null || (asked.isKnown && others === 0)) {
    return "No strip-down finding is on file yet, so no call can be held against one.";
  }
  const elsewhere =
    others === 0 ? "" : `; of other engine models there ${others === 1 ? "is" : "are"} ${f.number(others)}`;
  return asked.isKnown
    ? `No strip-down finding of ${asked.id} is on file yet${elsewhere}.`
    : `No engine model ${asked.id} is on file.`;
}

/** How many of the cases a list shows; empty: all of them. */
export const listedWords = (f: Formats, shown: number, all: number): string =>
  shown < all ? `The latest ${f.number(shown)} of ${f.number(all)}; the file has all of them.` : "";

/** The finding of the page. */
export function callsFinding(f: Formats, calls: readonly Call[]): string {
  const sound = calls.filter(({ found }) => found === "sound").length;
  const opened = `${f.number(calls.length)} ${calls.length === 1 ? "cylinder was" : "cylinders were"} opened`;
  const soundWords = sound === 0 ? "none was found sound" : `${f.number(sound)} found sound`;
  return `${opened}; the class of repair called the day before: ${rightWords(f, calls)}; ${soundWords}.`;
}

/** Whether a call was right, in words. */
export function outcomeWords({ right, found }: Call): string {
  if (right === null) return "never tested before";
  if (right) return "right";
  return found === "sound" ? "opened and found sound" : "missed";
}
