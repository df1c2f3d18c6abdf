import { longestName } from "../../../lib/schema/longest-name.ts";

/** How the list of engines may be asked for. */
export interface EnginesView {
  readonly search: string;
  /** From 1. */
  readonly page: number;
}

type Search = Readonly<Record<string, string | string[] | undefined>>;

const one = (value: string | string[] | undefined): string => (Array.isArray(value) ? value[0] : value) ?? "";

/** What is not understood counts as not asked for. */
export function readEnginesAddress(search: Search): EnginesView {
  const page = one(search["page"]);
  return {
    search: one(search["search"]).trim().slice(0, longestName),
    page: /^[1-9]\d{0,5}$/.test(page) ? Number(page) : 1,
  };
}

/** The address of the list; what is as at first is left out. */
export const enginesAddress = (view: EnginesView): string => addressOf("/engines", view);

/** Where the whole list is downloaded. */
export const enginesFileAddress = ({ search }: EnginesView): string => addressOf("/engines.csv", { search, page: 1 });

function addressOf(path: string, { search, page }: EnginesView): string {
  const fields = new URLSearchParams();
  if (search !== "") fields.set("search", search);
  if (page > 1) fields.set("page", String(page));
  return fields.size === 0 ? path : `${path}?${fields}`;
}

/** The address of an engine's page, by its key. */
export const engineAddress = (engine: string): string => `/engines/${encodeURIComponent(engine)}`;
