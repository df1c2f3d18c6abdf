import { type BudgetRow, budgetInputsOf } from "../../db/budgets.ts";
import type { Store } from "../../db/store.ts";
import { readInputs } from "../../lib/budget/inputs.ts";
import type { BudgetBridge, NoBridge } from "../../lib/schema/bridge.ts";
import { tellDrawing } from "./budget-anew.ts";
import { cancelJob, jobView, startJob, subscribeToJob } from "./job-registry.ts";
import { withSignal } from "./plan-anew.ts";
import type { JobControl } from "./progress.ts";
import { noTurns, type Turns, takeTurn } from "./turns.ts";
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
  /** Number of the later budget. */
  readonly now: number;
  bridge: Bridged | null;
}

interface Bridges {
  readonly kept: Map<string, Kept>;
  readonly turns: Turns;
}

const holder = globalThis as { borecastBridges?: WeakMap<Store, Bridges> };

function bridgesOf(store: Store): Bridges {
  holder.borecastBridges ??= new WeakMap();
  const bridges = holder.borecastBridges.get(store) ?? { kept: new Map<string, Kept>(), turns: noTurns() };
  holder.borecastBridges.set(store, bridges);
  return bridges;
}

/**
 * The bridge where it is drawn; else the job that draws it, which is begun where none is. One at a time is drawn, for it takes a thread
 * and much memory: the others wait for their turn.
 */
export function bridgeOf(
  store: Store,
  ends: Ends,
  run: RunTask = inWorker(),
): { readonly bridge: Bridged } | { readonly job: string } {
  dropOutdated(store, ends.now.id);
  if (ends.was.document.currency !== ends.now.document.currency) return { bridge: "other-currency" };
  const bridges = bridgesOf(store);
  const { kept } = bridges;
  const key = keyOf(ends);
  const known = kept.get(key);
  if (known?.bridge != null) return { bridge: known.bridge };
  // One that failed or was cancelled is tried again.
  if (known !== undefined && isRunning(known)) return { job: known.job };
  const inTurn = takeTurn(bridges.turns);
  const job = startJob("bridge", (control) =>
    inTurn(control.signal, async () => {
      const bridge = await bridgeBetween(store, ends, control, run);
      const own = kept.get(key);
      if (own?.job === job) own.bridge = bridge;
    }),
  );
  kept.delete(key);
  kept.set(key, { job, now: ends.now.id, bridge: null });
  forgetOldest(kept);
  return { job };
}

/** The bridge, once its turn has come and it is drawn; null: it was given up, or could not be drawn. */
export async function drawnBridge(store: Store, ends: Ends, run: RunTask = inWorker()): Promise<Bridged | null> {
  const told = bridgeOf(store, ends, run);
  if ("bridge" in told) return told.bridge;
  await new Promise<void>((resolve) => {
    const news = subscribeToJob(told.job, ({ state }) => {
      if (state !== "running") resolve();
    });
    if (news === null) resolve();
  });
  return bridgesOf(store).kept.get(keyOf(ends))?.bridge ?? null;
}

const keyOf = ({ was, now, year }: Ends): string => `${was.id} ${now.id} ${year}`;

/** Ends and forgets the bridges to budgets that another one has taken the place of. */
export function dropOutdated(store: Store, today: number): void {
  const { kept } = bridgesOf(store);
  for (const [key, { job, now }] of kept) {
    if (now >= today) continue;
    cancelJob(job);
    kept.delete(key);
  }
}

const isRunning = ({ job }: Kept): boolean => jobView(job)?.state === "running";

/** Those that are drawn go first, then what has waited longest: nobody may look at it any more. Never the one being drawn. */
function forgetOldest(kept: Map<string, Kept>): void {
  const entries = [...kept];
  const waiting = entries.filter(([, one]) => isRunning(one)).slice(1);
  const inOrder = [...entries.filter(([, one]) => !isRunning(one)), ...waiting];
  for (const [key, { job }] of inOrder.slice(0, Math.max(0, kept.size - mostKept))) {
    cancelJob(job);
    kept.delete(key);
  }
}
