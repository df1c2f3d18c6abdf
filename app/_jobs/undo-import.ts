import { touchedUnits } from "../../db/connected.ts";
import { type Outcome, undoImport as undo } from "../../db/import-state.ts";
import { importDetail } from "../../db/imports.ts";
import { factsVersion, markAssessed } from "../../db/meta.ts";
import type { Store } from "../../db/store.ts";
import { assessing } from "./assessments-left.ts";
import { demoName, withdrawDemoHouse } from "./demo-house.ts";
import { exclusively } from "./exclusive.ts";
import { type Act, doerOf, type JobControl, progressOf } from "./progress.ts";
import { type Reassessed, reassess } from "./reassess.ts";

/**
 * Takes a committed import back, whole, and assesses the units that it had touched. Pools that were fitted while it
 * stood are fitted anew, so that nothing of it is left in any forecast. Units of which nothing else is known lose their
 * report. With the demo fleet its date, its name and its depots' calendars go as well.
 */
export function undoImport(
  store: Store,
  importId: string,
  act: Act,
  control: JobControl = {},
): Promise<Outcome<Reassessed>> {
  return exclusively(store, async () => {
    control.signal?.throwIfAborted();
    control.onProgress?.(progressOf("committing"));
    const detail = await importDetail(store, importId);
    const rank = detail?.rank ?? null;
    const outcome = await undo(store, importId, doerOf(act));
    if (!outcome.ok) return outcome;
    return assessing("The import is undone", async () => {
      const isOtherDay = detail?.by === demoName && (await withdrawDemoHouse(store, act));
      const version = await factsVersion(store, store.q);
      const units = await touchedUnits(store, importId);
      const reassessed = await reassess(store, { units, because: "undo", importId, sinceVersion: rank }, act, control);
      if (isOtherDay) await reassess(store, { units: "all", because: "day", pools: "stay" }, act, control);
      await markAssessed(store, version, { whole: false });
      return { ok: true, value: reassessed };
    });
  });
}
