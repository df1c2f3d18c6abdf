import { longestName } from "../../../lib/schema/longest-name.ts";
import type { FleetQuery } from "../../../lib/schema/report.ts";
import { bands } from "../../../lib/schema/words.ts";
import { areUsual, type ColumnId, columnIds, usualColumns } from "./columns.ts";

/** What the Fleet page's address says: how the table is asked for, its columns, and how many years its axis shows. */
export interface FleetView extends FleetQuery {
  readonly years: 1 | 3 | 5;
  /** In the table's order. */
  readonly columns: readonly ColumnId[];
  /** Units a page as asked for; null: as many as suit the screen. */
  readonly rows: number | null;
}

export type AddressParts = Readonly<Record<string, string | readonly string[] | undefined>>;

/** Units a page where the address says nothing: a phone shows some as blocks. */
const usualRows = { phone: 12, wide: 25 } as const;
export const rowChoices = [12, 25, 50, 100] as const;

/** What rows may be ordered by. */
export const fleetSorts = [
  "due",
  "unit",
  "band",
  "last-test",
  "use",
  "depot",
  "model",
  "class",
  "next-test",
  "top-chance",
  "bottom-chance",
] as const satisfies readonly FleetQuery["sort"][];
export const groupings = ["depot", "model", "band"] as const;
const spans = [1, 3, 5] as const;
const filters = [...bands, "never-tested", "overdue", "question"] as const;

export const plainFleetView: FleetView = {
  search: "",
  band: null,
  depot: null,
  model: null,
  group: null,
  sort: "due",
  descending: false,
  page: 1,
  pageSize: usualRows.wide,
  years: 3,
  columns: usualColumns,
  rows: null,
};

/** Reads the address. What it does not understand counts as not asked for. */
export function readFleetAddress(parts: AddressParts, { phone }: { readonly phone: boolean }): FleetView {
  const all = (name: string): readonly string[] => [parts[name] ?? []].flat();
  const text = (name: string): string => (all(name)[0] ?? "").trim().slice(0, longestName);
  const orNull = (value: string) => (value === "" ? null : value);
  const page = Number(text("page"));
  const rows = rowChoices.find((choice) => String(choice) === text("rows")) ?? null;
  return {
    search: text("search"),
    band: filters.find((filter) => filter === text("band")) ?? null,
    depot: orNull(text("depot")),
    model: orNull(text("model")),
    group: groupings.find((grouping) => grouping === text("group")) ?? null,
    sort: fleetSorts.find((sort) => sort === text("sort")) ?? plainFleetView.sort,
    descending: text("order") === "down",
    page: Number.isSafeInteger(page) && page >= 1 ? page : 1,
    pageSize: rows ?? (phone ? usualRows.phone : usualRows.wide),
    years: spans.find((years) => String(years) === text("years")) ?? plainFleetView.years,
    columns: columnsOf(all("columns")),
    rows,
  };
}

/** The unit is always shown; its word alone stands for a table without any other column. */
const noOther = "unit";

/** Words in one field, or a field for each box of the form that was ticked. */
function columnsOf(given: readonly string[]): readonly ColumnId[] {
  const words = new Set(given.flatMap((words) => words.split(/\s+/)));
  const asked = columnIds.filter((id) => words.has(id));
  return asked.length === 0 && !words.has(noOther) ? usualColumns : asked;
}

/** The fields of the address that a view needs; what is as usual is left out. */
export function fleetAddressFields(view: FleetView): readonly (readonly [name: string, value: string])[] {
  const fields: (readonly [string, string])[] = [];
  if (view.search !== "") fields.push(["search", view.search]);
  if (view.band !== null) fields.push(["band", view.band]);
  if (view.depot !== null) fields.push(["depot", view.depot]);
  if (view.model !== null) fields.push(["model", view.model]);
  if (view.group !== null) fields.push(["group", view.group]);
  if (view.sort !== plainFleetView.sort) fields.push(["sort", view.sort]);
  if (view.descending) fields.push(["order", "down"]);
  if (view.years !== plainFleetView.years) fields.push(["years", String(view.years)]);
  if (!areUsual(view.columns)) fields.push(["columns", view.columns.join(" ") || noOther]);
  if (view.rows !== null) fields.push(["rows", String(view.rows)]);
  if (view.page > 1) fields.push(["page", String(view.page)]);
  return fields;
}

const addressOf = (path: string, view: FleetView): string => {
  const query = new URLSearchParams(fleetAddressFields(view).map(([name, value]) => [name, value])).toString();
  return query === "" ? path : `${path}?${query}`;
};

/** The address of a view with some of it changed. A change of anything but the page leads back to the first page. */
export const fleetAddress = (view: FleetView, change: Partial<FleetView>): string =>
  addressOf("/", { ...view, page: 1, ...change });

/** The whole view, all of its pages, as a file. */
export const fleetFileAddress = (view: FleetView): string => addressOf("/fleet.csv", { ...view, page: 1, rows: null });

/** The view without any search or filter. */
export const allUnits = { search: "", band: null, depot: null, model: null } as const satisfies Partial<FleetView>;

/** Whether a part of the fleet is looked at, whichever band of it. */
export const isPart = (view: FleetView): boolean => view.search !== "" || view.depot !== null || view.model !== null;

/** Whether rows are left out by search or filter. */
export const isFiltered = (view: FleetView): boolean => view.band !== null || isPart(view);
