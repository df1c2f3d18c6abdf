import type { EngineModel } from "../schema/engine-model.ts";
import type { StripDown } from "../schema/strip-down.ts";
import { type Cause, causes, repairClassOf } from "../schema/words.ts";
import { posterior } from "./bayes.ts";
import { addCounts, type CauseCounts, countStripDowns, noCounts } from "./counts.ts";
import { tableFor } from "./table.ts";

export const calledClasses = ["top-end", "bottom-end", "test-set-up"] as const;
export type CalledClass = (typeof calledClasses)[number];
export const foundClasses = ["top-end", "bottom-end", "both", "sound", "test-set-up"] as const;
export type FoundClass = (typeof foundClasses)[number];

/** What would have been called the day before a cylinder was opened, beside what was found. */
export interface Call {
  readonly case: StripDown;
  /** null: never tested before that day, so nothing was called. */
  readonly called: { readonly class: CalledClass; readonly probability: number; readonly cause: Cause } | null;
  readonly found: FoundClass;
  /** The class called is the one found, or one of two found; null: nothing was called. */
  readonly right: boolean | null;
}

/**
 * The calls of an engine model's strip-downs, the latest first. Each is made with the table as strip-downs of earlier days
 * had sharpened it, never with what it found itself (Dawid, J. R. Stat. Soc. A 147 (1984): prequential).
 */
export function callsOf(stripDowns: readonly StripDown[], model: Pick<EngineModel, "evidence">): readonly Call[] {
  const inOrder = stripDowns.toSorted(
    (a, b) => compare(a.date, b.date) || compare(a.engine, b.engine) || a.cylinder - b.cylinder,
  );
  const byDay = new Map<string, StripDown[]>();
  for (const one of inOrder) byDay.set(one.date, [...(byDay.get(one.date) ?? []), one]);
  const calls: Call[] = [];
  let counts: CauseCounts = noCounts;
  for (const ofDay of byDay.values()) {
    for (const one of ofDay) calls.push(callOf(one, model, counts));
    counts = addCounts(counts, countStripDowns(ofDay));
  }
  return calls.reverse();
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function callOf(one: StripDown, model: Pick<EngineModel, "evidence">, counts: CauseCounts): Call {
  const found = foundClass(one.found);
  if (!one.tested) return { case: one, called: null, found, right: null };
  const { shares } = posterior(
    one.seen.map((finding) => ({ ...finding, slots: {} })),
    tableFor(model, counts),
  );
  const ofClass = (name: CalledClass) =>
    shares.reduce((sum, share, i) => (repairClassOf[causes[i] as Cause] === name ? sum + share : sum), 0);
  const leading = calledClasses.reduce((a, b) => (ofClass(b) > ofClass(a) ? b : a));
  const at = shares.indexOf(Math.max(...shares));
  return {
    case: one,
    called: { class: leading, probability: ofClass(leading), cause: causes[at] as Cause },
    found,
    right: isRightCall(leading, found),
  };
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
