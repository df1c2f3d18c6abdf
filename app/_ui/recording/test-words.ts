import { type TestEvent, type ToldTest, testHistoryKey } from "../../../db/test-history.ts";
import type { Verdict } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { testChanges } from "./test-changes.ts";

export const verdictWords = {
  "set-aside": "set aside",
  accepted: "accepted",
  fault: "taken as showing a fault",
  "no-fault": "taken as showing no fault",
  withdrawn: "withdrawn",
  none: "not judged by a person",
} as const satisfies Record<Verdict, string>;

/** One step in the history of a test, in words. */
export interface HistoryStep {
  readonly key: string;
  readonly importId: string;
  /** Who did it, when, and what, as one sentence without its full stop. */
  readonly what: string;
  readonly why: string | null;
  readonly by: string;
  readonly at: string;
  /** null: it stands. */
  readonly undone: { readonly by: string; readonly at: string } | null;
}

type F = Pick<Formats, "number" | "date">;
type Judged = Extract<TestEvent, { kind: "judged" }>;

/**
 * What was told of one test and made of it, step by step: each correction with the old and the new value, each judgement
 * with its reason. `events` in the order of the commits. A value that was undone is no longer what the next one changes.
 */
export function historySteps(events: readonly TestEvent[], f: F): readonly HistoryStep[] {
  let stands: ToldTest | null = null;
  const judgements = new Map<number | null, Judged>();
  return events.flatMap((event, i): HistoryStep[] => {
    const { importId, by, at, from, undoneBy, undoneAt } = event;
    const undone = undoneBy === null ? null : { by: undoneBy, at: undoneAt ?? at };
    const step = (what: string, why: string | null): HistoryStep => ({
      key: `${importId} ${i}`,
      importId,
      what,
      why,
      by,
      at,
      undone,
    });
    if (event.kind === "judged") {
      const before = judgements.get(event.cylinder) ?? null;
      if (undone === null) judgements.set(event.cylinder, event);
      // Told again with a test that got another name.
      if (before !== null && before.verdict === event.verdict && before.reason === event.reason) return [];
      return [step(judgedWords(event, before), event.reason)];
    }
    const before = stands;
    const after = before === null ? event.test : laidOver(before, event);
    const isTaken = before === null || event.takeChanges;
    if (undone === null && isTaken) stands = after;
    // Declined, it still told the cylinders that nobody had told.
    else if (undone === null && before !== null) stands = withNewCylinders(before, event.test);
    if (before === null) return [step(`entered from ${from}`, null)];
    const changes = testChanges(before, after, f);
    if (changes.length === 0) return [];
    const why = /corrected: (.*)$/s.exec(from)?.[1] ?? null;
    const declined = isTaken ? "" : " (told otherwise, and not taken)";
    const told = changes.map(({ column, before: was, after: is }) => `${column}: ${was} to ${is}`).join("; ");
    return [step(`corrected: ${told}${declined}`, why ?? `from ${from}`)];
  });
}

function judgedWords({ cylinder, verdict, by, judgedBy }: Judged, before: Judged | null): string {
  const which = cylinder === null ? "the test" : `cylinder ${cylinder}`;
  const what =
    verdict === "none"
      ? `${which} no longer ${verdictWords[before?.verdict ?? "none"]}`
      : `${which} ${verdictWords[verdict]}`;
  return judgedBy === by ? what : `${what}, judged by ${judgedBy}`;
}

const isBlank = (value: unknown): boolean => value === null || (Array.isArray(value) && value.length === 0);
const notBlank = <T extends object>(told: T): Partial<T> =>
  Object.fromEntries(Object.entries(told).filter(([, value]) => !isBlank(value))) as Partial<T>;

/** As `db/test-layers.ts` lays what imports say of one test over each other. */
function laidOver(before: ToldTest, { test, whole }: Extract<TestEvent, { kind: "told" }>): ToldTest {
  const readings = new Map(before.readings.map((reading) => [reading.cylinder, reading]));
  for (const reading of test.readings) {
    const was = whole ? undefined : readings.get(reading.cylinder);
    const known = was?.valueUnit === reading.valueUnit ? was : { ...was, supply: null, firstStroke: null };
    readings.set(reading.cylinder, was === undefined ? reading : { ...reading, ...known, ...notBlank(reading) });
  }
  const isRenamed = testHistoryKey(test) !== testHistoryKey(before);
  // Under another name it is told with all its readings.
  if (isRenamed) return test;
  const head = whole ? test : { ...before, ...notBlank(test) };
  return { ...head, readings: [...readings.values()].sort((a, b) => a.cylinder - b.cylinder) };
}

function withNewCylinders(before: ToldTest, { readings }: ToldTest): ToldTest {
  const known = new Set(before.readings.map(({ cylinder }) => cylinder));
  return { ...before, readings: [...before.readings, ...readings.filter(({ cylinder }) => !known.has(cylinder))] };
}
