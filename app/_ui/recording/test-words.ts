import type { TestEvent } from "../../../db/test-history.ts";
import type { Verdict } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";

export const verdictWords = {
  "set-aside": "set aside",
  accepted: "accepted",
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

/**
 * What was told of one test and made of it, step by step: each correction with the old and the new value, each judgement
 * with its reason. `events` in the order of the commits. A value that was undone is no longer what the next one changes.
 */
export function historySteps(events: readonly TestEvent[], f: Pick<Formats, "number">): readonly HistoryStep[] {
  const figure = (value: number) => f.number(value, String(value).split(".")[1]?.length ?? 0);
  const values = new Map<number, string>();
  let meter: number | null = null;
  const verdicts = new Map<number | null, Verdict>();
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
      const { cylinder, verdict, reason, judgedBy } = event;
      const which = cylinder === null ? "the test" : `cylinder ${cylinder}`;
      const before = verdicts.get(cylinder) ?? "none";
      if (undone === null) verdicts.set(cylinder, verdict);
      const what =
        verdict === "none" ? `${which} no longer ${verdictWords[before]}` : `${which} ${verdictWords[verdict]}`;
      return [step(judgedBy === by ? what : `${what}, judged by ${judgedBy}`, reason)];
    }
    const isFirst = meter === null;
    const changes: string[] = [];
    const isTaken = isFirst || event.takeChanges;
    if (meter !== null && event.meter !== meter) changes.push(`meter ${figure(meter)} to ${figure(event.meter)}`);
    for (const { cylinder, value, valueUnit } of event.readings) {
      const now = `${figure(value)} ${valueUnit}`;
      const was = values.get(cylinder);
      if (was === undefined && !isFirst) changes.push(`cylinder ${cylinder} added: ${now}`);
      else if (was !== undefined && was !== now) changes.push(`cylinder ${cylinder}: ${was} to ${now}`);
      if (undone === null && (isTaken || was === undefined)) values.set(cylinder, now);
    }
    if (undone === null && isTaken) meter = event.meter;
    if (isFirst) return [step(`entered from ${from}`, null)];
    if (changes.length === 0) return [];
    const why = /corrected: (.*)$/s.exec(from)?.[1] ?? null;
    const declined = isTaken ? "" : " (told otherwise, and not taken)";
    return [step(`corrected: ${changes.join("; ")}${declined}`, why ?? `from ${from}`)];
  });
}
