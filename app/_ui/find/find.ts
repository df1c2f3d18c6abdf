import { standingModels } from "../../../db/engine-models.ts";
import { asksNothing, findDepots, findEngines, findUnits } from "../../../db/search.ts";
import type { Store } from "../../../db/store.ts";
import { bandWords } from "../band-mark.tsx";
import { depotAddress } from "../depots/address.ts";
import { engineAddress } from "../engines/address.ts";
import { unitAddress } from "../unit-address.ts";
import { type FoundGroup, foundModels, foundPages, foundWords } from "./found.ts";

const listed = (...parts: readonly (string | null)[]): string => parts.filter((part) => part !== null).join(", ");

/** What a text finds, kind by kind, up to `most` of each; where nothing is asked, the pages alone. */
export async function findEverything(store: Store, text: string, most: number): Promise<FoundGroup[]> {
  if (asksNothing(text)) return [{ title: "Pages", found: foundPages("") }];
  const [units, engines, depots, models] = await Promise.all([
    findUnits(store, text, most),
    findEngines(store, text, most),
    findDepots(store, text, most),
    standingModels(store),
  ]);
  const groups: readonly FoundGroup[] = [
    {
      title: "Units",
      found: units.map(({ unit, engineModel, depot, band }) => ({
        title: unit,
        detail: listed(engineModel, depot, band === null ? null : bandWords[band]),
        href: unitAddress(unit),
      })),
    },
    {
      title: "Engines",
      found: engines.map(({ engine, serial, engineModel, unit }) => ({
        title: serial,
        detail: listed(engineModel, unit === null ? "in no unit now" : `now in ${unit}`),
        href: engineAddress(engine),
      })),
    },
    {
      title: "Depots",
      found: depots.map((depot) => ({ title: depot, detail: "depot", href: depotAddress(depot) })),
    },
    {
      title: "Engine models",
      found: foundModels(models, text, most),
    },
    { title: "Pages", found: foundPages(text).slice(0, most) },
    { title: "Words", found: foundWords(text, most) },
  ];
  return groups.filter(({ found }) => found.length > 0);
}
