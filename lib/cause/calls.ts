import type { CylinderAssessment } from "../schema/assessment.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { StripDown } from "../schema/strip-down.ts";
import { type Cause, causes, repairClassOf } from "../schema/words.ts";
import { posterior } from "./bayes.ts";
import { addCounts, type CauseCounts, countStripDowns, noCounts } from "./counts.ts";
import { tableFor } from "./table.ts";

export const calledClasses = ["top-end", "bottom-end", "test-set-up"] as const;
export type CalledClass = (typeof calledClasses)[number];
export const foundClasses = ["top-end", "bottom-end", "both", "sound", "test-set-up"] as const;
export type FoundClass = (typeof foundClasses)[number];

/** What an assessment said of a cylinder, as it was issued before the day on which the cylinder was opened. */
export interface IssuedCall extends Pick<CylinderAssessment, "topEnd" | "bottomEnd" | "testSetUp" | "causes"> {
  readonly asOf: IsoDate;
}

/** What was called before a cylinder was opened, or would have been the day before, beside what was found. */
export interface Call {
  readonly case: StripDown;
  /** null: never tested before that day, so nothing was called. */
  readonly called: { readonly class: CalledClass; readonly probability: number; readonly cause: Cause } | null;
  /** As-of date of the assessment that called it before that day, and was kept; null: told by today's table. */
  readonly issued: IsoDate | null;
  readonly found: FoundClass;
  /** The class called is the one found, or one of two found; null: nothing was called. */
  readonly right: boolean | null;
}

/**
 * The calls of an engine model's strip-downs, the latest first. What was issued before that day stays as it was called,
 * whatever has become of the table since; a call that nobody issued then is made with today's table as strip-downs of earlier
 * days had sharpened it, never with what it found itself (Dawid, J. R. Stat. Soc. A 147 (1984): prequential).
 */
export function callsOf(
  stripDowns: readonly StripDown[],
  model: Pick<EngineModel, "evidence">,
  issuedOf: (one: StripDown) => IssuedCall | null = () => null,
): readonly Call[] {
  const inOrder = stripDowns.toSorted(
    (a, b) => compare(a.date, b.date) || compare(a.engine, b.engine) || a.cylinder - b.cylinder,
  );
  const byDay = new Map<string, StripDown[]>();
  for (const one of inOrder) byDay.set(one.date, [...(byDay.get(one.date) ?? []), one]);
  const calls: Call[] = [];
  let counts: CauseCounts = noCounts;
  for (const ofDay of byDay.values()) {
    for (const one of ofDay) calls.push(callOf(one, { model, counts, issued: issuedOf(one) }));
    counts = addCounts(counts, countStripDowns(ofDay));
  }
  return calls.reverse();
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function callOf(
  one: StripDown,
  by: {
    readonly model: Pick<EngineModel, "evidence">;
    readonly counts: CauseCounts;
    readonly issued: IssuedCall | null;
  },
): Call {
  const found = foundClass(one.found);
  if (!one.tested) return { case: one, called: null, issued: null, found, right: null };
  const called = by.issued === null ? calledToday(one, by) : calledThen(by.issued);
  return { case: one, called, issued: by.issued?.asOf ?? null, found, right: isRightCall(called.class, found) };
}

function calledThen({ topEnd, bottomEnd, testSetUp, causes: told }: IssuedCall): NonNullable<Call["called"]> {
  const shares = { "top-end": topEnd, "bottom-end": bottomEnd, "test-set-up": testSetUp } as const;
  const leading = calledClasses.reduce((a, b) => (shares[b] > shares[a] ? b : a));
  const [first] = told.toSorted((a, b) => b.probability - a.probability);
  return { class: leading, probability: shares[leading], cause: first?.cause ?? "test-set-up" };
}

function calledToday(
  one: StripDown,
  { model, counts }: { readonly model: Pick<EngineModel, "evidence">; readonly counts: CauseCounts },
): NonNullable<Call["called"]> {
  const { shares } = posterior(
    one.seen.map((finding) => ({ ...finding, slots: {} })),
    tableFor(model, counts),
  );
  const ofClass = (name: CalledClass) =>
    shares.reduce((sum, share, i) => (repairClassOf[causes[i] as Cause] === name ? sum + share : sum), 0);
  const leading = calledClasses.reduce((a, b) => (ofClass(b) > ofClass(a) ? b : a));
  const at = shares.indexOf(Math.max(...shares));
  return { class: leading, probability: ofClass(leading), cause: causes[at] as Cause };
}

/** Whether a class called is the one found, or one of two found. */
export const isRightCall = (called: CalledClass, found: FoundClass): boolean =>
  called === found || (found === "both" && called !== "test-set-up");

/** The class of repair of what was found. A fault of the test found beside a real cause does not count. */
function foundClass(found: readonly Cause[]): FoundClass {
  const classes = new Set(found.map((cause) => repairClassOf[cause]));
  if (classes.has("top-end") && classes.has("bottom-end")) return "both";
  return [...classes].find((one) => one !== "test-set-up") ?? [...classes][0] ?? "sound";
}
