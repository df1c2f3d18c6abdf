import { listWords } from "../../lib/wording.ts";
import type { AddressParts } from "./compare/address.ts";

/** Whether a page understands what its address says under a name; names that are left out it does not know at all. */
export type Understood = Readonly<Record<string, (value: string) => boolean>>;

const longestTold = 60;
const mostTold = 4;

/** What of an address a page does not understand, as one sentence that says what is shown instead; null: all is understood. */
export function notUnderstoodWords(parts: AddressParts, understood: Understood, shown: string): string | null {
  const told = Object.entries(parts).flatMap(([name, value]) => {
    const knows = Object.hasOwn(understood, name) ? understood[name] : undefined;
    if (value === undefined || (typeof value === "string" && knows?.(value) === true)) return [];
    return [value].flat().map((one) => `“${plain(`${name}=${one}`)}”`);
  });
  if (told.length === 0) return null;
  const rest = told.length - mostTold;
  const listed = listWords(rest > 0 ? [...told.slice(0, mostTold), `${rest} more`] : told);
  return `Of this page’s address ${listed} ${told.length === 1 ? "is" : "are"} not understood: ${shown}.`;
}

/** As far as it can be shown: without control signs, and not longer than a line. */
function plain(text: string): string {
  const shown = text.replace(/\p{Cc}/gu, "\ufffd");
  return shown.length > longestTold ? `${shown.slice(0, longestTold)}…` : shown;
}

export function NotUnderstood({ says }: { readonly says: string | null }) {
  return says === null ? null : <p role="status">{says}</p>;
}
