import { nameScenario } from "../../db/scenarios.ts";
import type { Store } from "../../db/store.ts";
import { cancelJob, startJob, subscribeToJob } from "./job-registry.ts";
import { type Act, doerOf } from "./progress.ts";
import { runScenarioOf } from "./run-scenario.ts";
import { noTurns, type Turns, takeTurn } from "./turns.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";

/** So many what-ifs are reckoned or wait for their turn at once: one may take minutes, and each keeps a thread busy. */
export const mostWaiting = 6;

/** How the reckoning of a what-if stands, as far as this process knows. */
export type Reckoning =
  | { readonly state: "running"; readonly job: string }
  /** `problem`: a sentence for a person. */
  | { readonly state: "failed"; readonly problem: string };

interface Reckonings {
  /** By the number of the what-if; those that came to an end well are forgotten. */
  readonly of: Map<number, Reckoning>;
  readonly turns: Turns;
}

const holder = globalThis as { borecastWhatIfs?: WeakMap<Store, Reckonings> };

/** On globalThis because the bundler may load this file once for pages and once for actions. */
function reckonings(store: Store): Reckonings {
  holder.borecastWhatIfs ??= new WeakMap();
  const known = holder.borecastWhatIfs.get(store) ?? { of: new Map<number, Reckoning>(), turns: noTurns() };
  holder.borecastWhatIfs.set(store, known);
  return known;
}

/** How it stands with a what-if; null: nobody asked this process to reckon it, or it is reckoned. */
export const reckoningOf = (store: Store, id: number): Reckoning | null => reckonings(store).of.get(id) ?? null;

/** Whether as many wait as may. */
export const isFull = (store: Store): boolean =>
  [...reckonings(store).of.values()].filter(({ state }) => state === "running").length >= mostWaiting;

/**
 * Has a what-if reckoned in its turn, one at a time; it goes on whether anybody looks or not. Gives the job, also where one runs for
 * it already; null: as many wait as may.
 */
export function reckon(store: Store, id: number, act: Pick<Act, "now">, run: RunTask = inWorker()): string | null {
  const { of, turns } = reckonings(store);
  const known = of.get(id);
  if (known?.state === "running") return known.job;
  if (isFull(store)) return null;
  const inTurn = takeTurn(turns);
  const job = startJob("what-if", (control) =>
    inTurn(control.signal, () => runScenarioOf(store, id, act, control, run)),
  );
  of.set(id, { state: "running", job });
  subscribeToJob(job, ({ state, error }) => {
    if (state === "running") return;
    if (state === "done") of.delete(id);
    else of.set(id, { state: "failed", problem: error ?? "It was ended before it was done." });
  });
  return job;
}

/**
 * Keeps a what-if under a name and has it reckoned in its turn. `job` is null where others took the last place while it was being
 * named: it is kept all the same, and taken up later (`takeUp`). `full`: as many wait as may, and nothing was kept; neither where
 * its name is taken.
 */
export async function nameAndReckon(
  store: Store,
  asked: Parameters<typeof nameScenario>[1],
  act: Act,
  run?: RunTask,
): Promise<{ readonly job: string | null } | "full" | "name-taken"> {
  if (isFull(store)) return "full";
  const id = await nameScenario(store, asked, doerOf(act));
  return id === null ? "name-taken" : { job: reckon(store, id, act, run) };
}

/**
 * Takes up what was never reckoned and is not being reckoned, as after a stop of the program, the first named first, as many as may
 * wait. What failed or was ended waits for a person to ask again.
 * @param ids of the what-ifs without a result
 */
export function takeUp(store: Store, ids: readonly number[], act: Pick<Act, "now">, run?: RunTask): void {
  for (const id of ids) if (reckoningOf(store, id) === null) reckon(store, id, act, run);
}

/** Ends what is being reckoned of a what-if, or waits to be: nobody asks for it any more. */
export function giveUp(store: Store, id: number): void {
  const { of } = reckonings(store);
  const known = of.get(id);
  if (known?.state === "running") cancelJob(known.job);
}
