import type { FleetQuery } from "../../../lib/schema/report.ts";
import { bands } from "../../../lib/schema/words.ts";

/** What the Fleet page's address says: how the table is asked for, and how many years its axis shows. */
export interface FleetView extends FleetQuery {
  readonly years: 1 | 3 | 5;
}

export type AddressParts = Readonly<Record<string, string | readonly string[] | undefined>>;

const fleetPageSize = 25;

const sorts = ["due", "unit", "band", "last-test", "use"] as const;
const spans = [1, 3, 5] as const;
const knownBands: readonly string[] = [...bands, "never-tested", "overdue", "question"];

const longestSearch = 100;

export const plainFleetView: FleetView = {
  search: "",
  band: null,
  depot: null,
  model: null,
  sort: "due",
  descending: false,
  page: 1,
  pageSize: fleetPageSize,
  years: 3,
};

/** Reads the address. What it does not understand counts as not asked for. */
export function readFleetAddress(parts: AddressParts): FleetView {
  const text = (name: string): string => {
    const value = parts[name];
    return (typeof value === "string" ? value : (value?.[0] ?? "")).trim().slice(0, longestSearch);
  };
  const orNull = (value: string) => (value === "" ? null : value);
  const band = text("band");
  const page = Number(text("page"));
  return {
    search: text("search"),
    band: knownBands.includes(band) ? (band as NonNullable<FleetQuery["band"]>) : null,
    depot: orNull(text("depot")),
    model: orNull(text("model")),
    sort: sorts.find((sort) => sort === text("sort")) ?? plainFleetView.sort,
    descending: text("order") === "down",
    page: Number.isSafeInteger(page) && page >= 1 ? page : 1,
    pageSize: fleetPageSize,
    years: spans.find((years) => String(years) === text("years")) ?? plainFleetView.years,
  };
}

/** The fields of the address that a view needs; what is as usual is left out. */
export function fleetAddressFields(view: FleetView): readonly (readonly [name: string, value: string])[] {
  const fields: (readonly [string, string])[] = [];
  if (view.search !== "") fields.push(["search", view.search]);
  if (view.band !== null) fields.push(["band", view.band]);
  if (view.depot !== null) fields.push(["depot", view.depot]);
  if (view.model !== null) fields.push(["model", view.model]);
  if (view.sort !== plainFleetView.sort) fields.push(["sort", view.sort]);
  if (view.descending) fields.push(["order", "down"]);
  if (view.years !== plainFleetView.years) fields.push(["years", String(view.years)]);
  if (view.page > 1) fields.push(["page", String(view.page)]);
  return fields;
}

/** The address of a view with some of it changed. A change of anything but the page leads back to the first page. */
export function fleetAddress(view: FleetView, change: Partial<FleetView>): string {
  const next: FleetView = { ...view, page: 1, ...change };
  const query = new URLSearchParams(fleetAddressFields(next).map(([name, value]) => [name, value])).toString();
  return query === "" ? "/" : `/?${query}`;
}

/** Whether rows are left out by search or filter. */
export const isFiltered = (view: FleetView): boolean =>
  view.search !== "" || view.band !== null || view.depot !== null || view.model !== null;
