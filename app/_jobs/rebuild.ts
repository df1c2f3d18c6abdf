import { factsVersion, markAssessed, markUnassessed } from "../../db/meta.ts";
import { clearDerived } from "../../db/rebuild.ts";
import type { Store } from "../../db/store.ts";
import { exclusively } from "./exclusive.ts";
import type { Act, JobControl } from "./progress.ts";
import { type Reassessed, reassess } from "./reassess.ts";

/**
 * Makes all derived values anew from the facts: engines, fittings, pools and every assessment. The history of what was
 * issued stays. Ended in between, the next start makes the rest good.
 */
export function rebuild(store: Store, act: Act, control: JobControl = {}): Promise<Reassessed> {
  return exclusively(store, async () => {
    control.signal?.throwIfAborted();
    const version = await factsVersion(store, store.q);
    await markUnassessed(store);
    await clearDerived(store, { at: act.now.toISOString() });
    const reassessed = await reassess(store, { units: "all", because: "rebuild", pools: "all" }, act, control);
    await markAssessed(store, version, { whole: true });
    return reassessed;
  });
}
