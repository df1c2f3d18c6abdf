import { appStore } from "../../db/app-store.ts";
import { knowsUnit } from "../../db/assessments.ts";
import { knowsEngine } from "../../db/engines.ts";
import { nameInAddress } from "./unit-address.ts";

/** The header in which the proxy tells the page for what is not there what was looked for. */
export const unknownHeader = "borecast-unknown";

export type Unknown = "unit" | "engine" | "address";

/**
 * What of an address is not known: a unit or engine that it names, or the address as a whole where it cannot be read.
 * null: nothing, as far as can be said before the page is made. Once its making has begun its status is sent, and a page
 * that then says that it is not there is drawn by script alone.
 */
export async function unknownIn(pathname: string): Promise<Unknown | null> {
  if (nameInAddress(pathname) === null) return "address";
  const [, place, part = ""] = pathname.split("/");
  const name = nameInAddress(part) ?? "";
  if (name === "") return null;
  if (place === "units") return (await knowsUnit(await appStore(), name)) ? null : "unit";
  if (place === "engines") return (await knowsEngine(await appStore(), name)) ? null : "engine";
  return null;
}
