/** Work that is done one after the other, in the order in which it was asked for. */
export interface Turns {
  /** Comes true when all that was asked for so far is done or given up. */
  before: Promise<unknown>;
}

export const noTurns = (): Turns => ({ before: Promise.resolve() });

/**
 * Takes a place in the order at once; the work of it then waits for its turn and is done. What is given up while it waits rejects
 * at once with the signal's reason, and lets nobody in before those ahead of it.
 */
export function takeTurn(turns: Turns): <T>(signal: AbortSignal, work: () => Promise<T>) => Promise<T> {
  const { before } = turns;
  let ended = () => {};
  const mine = new Promise<void>((resolve) => (ended = resolve));
  turns.before = Promise.all([before, mine]);
  return async (signal, work) => {
    try {
      await turnOf(before, signal);
      return await work();
    } finally {
      ended();
    }
  };
}

async function turnOf(before: Promise<unknown>, signal: AbortSignal): Promise<void> {
  signal.throwIfAborted();
  const given = new Promise<never>((_, reject) => {
    signal.addEventListener("abort", () => reject(signal.reason as Error), { once: true });
  });
  await Promise.race([before, given]);
}
