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
