import { longestName } from "../../../lib/schema/longest-name.ts";
import type { AddressParts } from "../fleet/address.ts";

/** Days ahead of today that a round may reach; 0: what is due already. */
export const reaches = [0, 28, 91] as const;

/** What the address of a test round says. */
export interface RoundView {
  /** null: all depots. */
  readonly depot: string | null;
  readonly days: (typeof reaches)[number];
  /** From 1. */
  readonly page: number;
}

export const plainRoundView: RoundView = { depot: null, days: 28, page: 1 };

/** Units on a page, on paper as on the screen: more than a depot tests in a month. */
export const roundPageSize = 60;

/** Reads the address. What it does not understand counts as not asked for. */
export function readRoundAddress(parts: AddressParts): RoundView {
  const text = (name: string): string => ([parts[name] ?? []].flat()[0] ?? "").trim().slice(0, longestName);
  const page = Number(text("page"));
  return {
    depot: text("depot") === "" ? null : text("depot"),
    days: reaches.find((days) => String(days) === text("days")) ?? plainRoundView.days,
    page: Number.isSafeInteger(page) && page >= 1 ? page : 1,
  };
}

const addressOf = (path: string, { depot, days, page }: RoundView): string => {
  const query = new URLSearchParams({
    ...(depot === null ? {} : { depot }),
    ...(days === plainRoundView.days ? {} : { days: String(days) }),
    ...(page === 1 ? {} : { page: String(page) }),
  }).toString();
  return query === "" ? path : `${path}?${query}`;
};

/** The address of a round; a change of anything but the page leads back to the first page. */
export const roundAddress = (view: Partial<RoundView> = {}): string =>
  addressOf("/round", { ...plainRoundView, ...view });

/** The whole round, all of its pages, as a file. */
export const roundFileAddress = (view: RoundView): string => addressOf("/round.csv", { ...view, page: 1 });
