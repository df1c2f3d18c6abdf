import { keptAsOf } from "../../db/assessments.ts";
import type { ChangedMeanwhile } from "../../db/depots.ts";
import { factsVersion, markAssessed } from "../../db/meta.ts";
import { readSettings, saveSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { assessmentSettings, type Settings } from "../../lib/schema/settings.ts";
import { asOfDate } from "./as-of.ts";
import { assessing } from "./assessments-left.ts";
import { exclusively } from "./exclusive.ts";
import { type Act, doerOf, type JobControl, progressOf } from "./progress.ts";
import { type Reassessed, reassess } from "./reassess.ts";

/** Whether what is told of any unit may change with these settings. */
export const touchesUnits = (patch: Partial<Settings>): boolean =>
  [...assessmentSettings, "asOf" as const].some((name) => name in patch);

export interface SettingsChanged {
  /** Somebody changed the settings after `version`; nothing was written. null: they are in force. */
  readonly meanwhile: ChangedMeanwhile | null;
  /** null: nothing had to be assessed anew. */
  readonly reassessed: Reassessed | null;
}

/**
 * Puts settings in force, then assesses all units anew where these hang on them. `version`: of
 * the settings that the person saw. A cancel or failure after the settings were written leaves them in force and some
 * assessments old, until the next start or the next hour makes them good: then it throws `AssessmentsLeft`.
 */
export function changeSettingsAndReassess(
  store: Store,
  patch: Partial<Settings>,
  { version, ...act }: Act & { readonly version: number },
  control: JobControl = {},
): Promise<SettingsChanged> {
  return exclusively(store, async () => {
    control.signal?.throwIfAborted();
    control.onProgress?.(progressOf("committing"));
    const facts = await factsVersion(store, store.q);
    const meanwhile = await saveSettings(store, patch, { ...doerOf(act), version });
    if (meanwhile !== null) return { meanwhile, reassessed: null };
    return assessing("The change of settings is in force", async () => {
      const asOf = asOfDate(await readSettings(store), act.now);
      const kept = await keptAsOf(store);
      const isOtherDay = kept !== null && kept !== asOf;
      if (!touchesUnits(patch) && !isOtherDay) return { meanwhile, reassessed: null };
      const toReassess = touchesUnits(patch)
        ? ({ units: "all", because: "settings" } as const)
        : ({ units: "all", because: "day", pools: "stay" } as const);
      const reassessed = await reassess(store, toReassess, act, control);
      await markAssessed(store, facts, { whole: true });
      return { meanwhile, reassessed };
    });
  });
}
