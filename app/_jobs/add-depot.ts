import { depotOverviews } from "../../db/depot-overview.ts";
import { sameName } from "../../db/searching.ts";
import type { Store } from "../../db/store.ts";
import { commitFormImport } from "./commit-form-import.ts";
import type { Committed } from "./commit-import.ts";
import type { Act, JobControl } from "./progress.ts";

/**
 * Keeps a depot that no file has named yet, as an import of its own. Throws a `JobError` where a depot of that name came on
 * the books meanwhile; nothing is kept then.
 */
export async function addDepot(
  store: Store,
  { depot, altitudeM }: { readonly depot: string; readonly altitudeM: number | null },
  act: Act,
  control: JobControl = {},
): Promise<Committed> {
  const meanwhile = async () => {
    const twin = (await depotOverviews(store)).find((known) => sameName(known.depot, depot));
    return twin === undefined
      ? null
      : `There is a depot ${twin.depot} by now, so nothing was added. Open it in the list.`;
  };
  return commitFormImport(
    store,
    { title: `Depot ${depot}`, told: { depots: [{ depot, altitudeM }] } },
    { ...act, meanwhile },
    control,
  );
}
