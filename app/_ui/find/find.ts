import { appStore } from "../../../db/app-store.ts";
import { standingModels } from "../../../db/engine-models.ts";
import { layoutNames } from "../../../db/layouts.ts";
import { asksNothing, findDepots, findEngines, findUnits } from "../../../db/search.ts";
import type { Store } from "../../../db/store.ts";
import { bandWords } from "../band-mark.tsx";
import { depotAddress } from "../depots/address.ts";
import { engineAddress } from "../engines/address.ts";
import type { Unknown } from "../known-address.ts";
import { unitAddress } from "../unit-address.ts";
import { type Found, type FoundGroup, foundLayouts, foundModels, foundPages, foundWords } from "./found.ts";

const listed = (...parts: readonly (string | null)[]): string => parts.filter((part) => part !== null).join(", ");

/** Things of a kind that are called much like a name which is not known; none where nothing is near or nothing is asked. */
export async function foundNear(unknown: Unknown, name: string): Promise<readonly Found[]> {
  const title = groupOf[unknown];
  if (title === null || asksNothing(name)) return [];
  const groups = await findEverything(await appStore(), name, 5);
  return groups.find((group) => group.title === title)?.found ?? [];
}

const groupOf = {
  unit: "Units",
  engine: "Engines",
  depot: "Depots",
  model: "Engine models",
  import: null,
  layout: "Layouts",
  address: null,
} as const satisfies Readonly<Record<Unknown, string | null>>;

/** What a text finds, kind by kind, up to `most` of each; where nothing is asked, the pages alone. */
export async function findEverything(store: Store, text: string, most: number): Promise<FoundGroup[]> {
  if (asksNothing(text)) return [{ title: "Pages", found: foundPages("") }];
  const [units, engines, depots, models, layouts] = await Promise.all([
    findUnits(store, text, most),
    findEngines(store, text, most),
    findDepots(store, text, most),
    standingModels(store),
    layoutNames(store),
  ]);
  const groups: readonly FoundGroup[] = [
    {
      title: groupOf.unit,
      found: units.map(({ unit, engineModel, depot, band }) => ({
        title: unit,
        detail: listed(engineModel, depot, band === null ? null : bandWords[band]),
        href: unitAddress(unit),
      })),
    },
    {
      title: groupOf.engine,
      found: engines.map(({ engine, serial, engineModel, unit }) => ({
        title: serial,
        detail: listed(engineModel, unit === null ? "in no unit now" : `now in ${unit}`),
        href: engineAddress(engine),
      })),
    },
    {
      title: groupOf.depot,
      found: depots.map((depot) => ({ title: depot, detail: "depot", href: depotAddress(depot) })),
    },
    {
      title: groupOf.model,
      found: foundModels(models, text, most),
    },
    { title: groupOf.layout, found: foundLayouts(layouts, text, most) },
    { title: "Pages", found: foundPages(text).slice(0, most) },
    { title: "Words", found: foundWords(text, most) },
  ];
  return groups.filter(({ found }) => found.length > 0);
}
