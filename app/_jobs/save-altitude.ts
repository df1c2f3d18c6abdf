import { type AltitudeTold, altitudeHistory } from "../../db/depot-overview.ts";
import type { Store } from "../../db/store.ts";
import { commitFormImport } from "./commit-form-import.ts";
import type { Act, JobControl } from "./progress.ts";
import type { Reassessed } from "./reassess.ts";

/** Stands for what is told of a depot's altitude: another import of it, or the undo of the last, gives another. */
export const altitudeVersion = ([latest]: readonly AltitudeTold[]): string | null =>
  latest === undefined ? null : `${latest.importId} ${latest.state}`;

/** Who changed a depot's altitude since the version that a person saw; null: nobody did. */
export async function altitudeToldSince(store: Store, depot: string, seen: string | null): Promise<string | null> {
  const history = await altitudeHistory(store, depot);
  const [latest] = history;
  return latest === undefined || altitudeVersion(history) === seen ? null : (latest.undoneBy ?? latest.by);
}

/**
 * Keeps a depot's altitude as an import of its own and assesses the units that were tested there. `seen`: the version
 * that the person saw. Throws a `JobError` where somebody else told it meanwhile, or nothing would change.
 */
export async function saveAltitude(
  store: Store,
  { depot, altitudeM, seen }: { readonly depot: string; readonly altitudeM: number; readonly seen: string | null },
  act: Act,
  control: JobControl = {},
): Promise<Reassessed> {
  const meanwhile = async () => {
    const quicker = await altitudeToldSince(store, depot, seen);
    return quicker === null
      ? null
      : `${quicker} told the altitude of ${depot} meanwhile, so nothing was changed now. Save again.`;
  };
  const facts = { title: `Altitude of ${depot}`, told: { depots: [{ depot, altitudeM }] } };
  return commitFormImport(store, facts, { ...act, meanwhile }, control);
}
