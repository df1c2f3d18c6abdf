import { appStore } from "../../db/app-store.ts";
import { knowsUnit } from "../../db/assessments.ts";
import { depotOverviews } from "../../db/depot-overview.ts";
import { standingModel } from "../../db/engine-models.ts";
import { knowsEngine } from "../../db/engines.ts";
import { importDetail } from "../../db/imports.ts";
import { layoutNames } from "../../db/layouts.ts";
import type { Store } from "../../db/store.ts";
import { nameInAddress } from "./unit-address.ts";

/** The header in which the proxy tells the page for what is not there what was looked for. */
export const unknownHeader = "borecast-unknown";

/** The header that tells the name looked for, as it stands in the address. */
export const unknownNameHeader = "borecast-unknown-name";

const unknowns = ["unit", "engine", "model", "depot", "import", "layout", "address"] as const;
export type Unknown = (typeof unknowns)[number];

export const isUnknown = (word: string | null): word is Unknown => unknowns.some((unknown) => unknown === word);

interface Things {
  /** What one of them is. */
  readonly kind: Unknown;
  readonly knows: (store: Store, name: string) => Promise<boolean>;
  /** Parts of addresses there that are no names. */
  readonly pages?: readonly string[];
  /** A part is a name only where one of these follows it. */
  readonly before?: readonly string[];
}

const knowsDepot: Things["knows"] = async (store, name) =>
  (await depotOverviews(store)).some(({ depot }) => depot === name);

/** The pages of single things, by what stands before their name in the address. */
const places: Readonly<Record<string, Things>> = {
  units: { kind: "unit", knows: knowsUnit },
  engines: { kind: "engine", knows: knowsEngine },
  models: {
    kind: "model",
    knows: async (store, id) => (await standingModel(store, id)) !== null,
    pages: ["new"],
  },
  depots: {
    kind: "depot",
    knows: knowsDepot,
  },
  plan: { kind: "unit", knows: knowsUnit, before: ["card", "quote"] },
  "plan/depots": { kind: "depot", knows: knowsDepot },
  import: {
    kind: "import",
    knows: async (store, id) => ((await importDetail(store, id))?.state ?? "discarded") !== "discarded",
    pages: ["layouts"],
  },
  "import/layouts": {
    kind: "layout",
    knows: async (store, name) => (await layoutNames(store)).includes(name),
  },
};

/**
 * What of an address is not known: a unit, an engine or the like that it names, or the address as a whole where it cannot
 * be read. null: nothing, as far as can be said before the page is made. Once its making has begun its status is sent, and
 * a page that then says that it is not there is drawn by script alone.
 */
export async function unknownIn(pathname: string): Promise<Unknown | null> {
  if (nameInAddress(pathname) === null) return "address";
  const { place, part, next } = placeIn(pathname);
  const things = Object.hasOwn(places, place) ? places[place] : undefined;
  const name = nameInAddress(part) ?? "";
  if (name === "" || things === undefined || things.pages?.includes(name)) return null;
  if (things.before !== undefined && !things.before.includes(next)) return null;
  return (await things.knows(await appStore(), name)) ? null : things.kind;
}

/** The name in the address of a thing's page, still encoded; empty: there is none. */
export const namedIn = (pathname: string): string => placeIn(pathname).part;

function placeIn(pathname: string): { readonly place: string; readonly part: string; readonly next: string } {
  const [, first = "", second = "", third = "", fourth = ""] = pathname.split("/");
  const below = `${first}/${second}`;
  return Object.hasOwn(places, below) && third !== ""
    ? { place: below, part: third, next: fourth }
    : { place: first, part: second, next: third };
}
