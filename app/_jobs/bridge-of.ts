import { type BudgetRow, budgetInputsOf } from "../../db/budgets.ts";
import type { Store } from "../../db/store.ts";
import { readInputs } from "../../lib/budget/inputs.ts";
import type { BudgetBridge, NoBridge } from "../../lib/schema/bridge.ts";
import { tellDrawing } from "./budget-anew.ts";
import { jobView, startJob } from "./job-registry.ts";
import { withSignal } from "./plan-anew.ts";
import type { JobControl } from "./progress.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";

/** `not-kept`: what one of the two was drawn from was not kept, or by another version of the program. */
export type Bridged = BudgetBridge | NoBridge | "not-kept";

/** Between a frozen budget and today's, of one fiscal year. */
interface Ends {
  readonly was: BudgetRow;
  readonly now: BudgetRow;
  readonly year: string;
}

/** Draws the bridge between two budgets; takes some seconds. */
export async function bridgeBetween(
  store: Store,
  { was, now, year }: Ends,
  control: JobControl = {},
  run: RunTask = inWorker(),
): Promise<Bridged> {
  const [before, after] = await Promise.all([budgetInputsOf(store, was.id), budgetInputsOf(store, now.id)]);
  if (before === null || after === null || readInputs(before) === null || readInputs(after) === null) return "not-kept";
  const ends = { was: { inputs: before, document: was.document }, now: { inputs: after, document: now.document } };
  return await run("bridge", { ...ends, year }, { tell: tellDrawing(control), ...withSignal(control) });
}

/** Bridges are drawn when somebody looks at one, and kept as long as this process runs: the last so many. */
const mostKept = 20;

interface Kept {
  readonly job: string;
  bridge: Bridged | null;
}

const holder = globalThis as { borecastBridges?: WeakMap<Store, Map<string, Kept>> };

function keptOf(store: Store): Map<string, Kept> {
  holder.borecastBridges ??= new WeakMap();
  const kept = holder.borecastBridges.get(store) ?? new Map<string, Kept>();
  holder.borecastBridges.set(store, kept);
  return kept;
}

/** The bridge where it is drawn; else the job that draws it, which is begun where none is. */
export function bridgeOf(store: Store, ends: Ends): { readonly bridge: Bridged } | { readonly job: string } {
  const kept = keptOf(store);
  const key = `${ends.was.id} ${ends.now.id} ${ends.year}`;
  const known = kept.get(key);
  if (known?.bridge != null) return { bridge: known.bridge };
  // One that failed or was cancelled is tried again.
  if (known !== undefined && jobView(known.job)?.state === "running") return { job: known.job };
  const job = startJob("bridge", async (control) => {
    const bridge = await bridgeBetween(store, ends, control);
    const mine = kept.get(key);
    if (mine !== undefined) mine.bridge = bridge;
  });
  kept.set(key, { job, bridge: null });
  for (const oldest of [...kept.keys()].slice(0, -mostKept)) kept.delete(oldest);
  return { job };
}
