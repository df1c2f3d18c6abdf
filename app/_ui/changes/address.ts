import { z } from "zod";
import { type ChangesQuery, changeKinds } from "../../../lib/schema/changes.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";

/** What the address of the page of changes says. */
export interface ChangesView extends ChangesQuery {
  readonly since: IsoDate | "last-visit";
}

type AddressParts = Readonly<Record<string, string | readonly string[] | undefined>>;

const changesPageSize = 25;

const plainView: ChangesView = {
  since: "last-visit",
  kind: null,
  direction: null,
  depot: null,
  page: 1,
  pageSize: changesPageSize,
};

const isoDate = z.iso.date();

/** Reads the address. What it does not understand counts as not asked for. */
export function readChangesAddress(parts: AddressParts): ChangesView {
  const text = (name: string): string => {
    const value = parts[name];
    return (typeof value === "string" ? value : (value?.[0] ?? "")).trim();
  };
  const since = isoDate.safeParse(text("since"));
  const page = Number(text("page"));
  return {
    ...plainView,
    since: since.success ? since.data : plainView.since,
    kind: changeKinds.find((kind) => kind === text("kind")) ?? null,
    direction: (["worse", "better"] as const).find((direction) => direction === text("direction")) ?? null,
    depot: text("depot") === "" ? null : text("depot"),
    page: Number.isSafeInteger(page) && page >= 1 ? page : 1,
  };
}

/** The fields of the address that a view needs; what is as usual is left out. */
export function changesAddressFields(view: ChangesView): readonly (readonly [name: string, value: string])[] {
  const fields: (readonly [string, string])[] = [];
  if (view.since !== plainView.since) fields.push(["since", view.since]);
  if (view.kind !== null) fields.push(["kind", view.kind]);
  if (view.direction !== null) fields.push(["direction", view.direction]);
  if (view.depot !== null) fields.push(["depot", view.depot]);
  if (view.page > 1) fields.push(["page", String(view.page)]);
  return fields;
}

/** The address of a view with some of it changed. A change of anything but the page leads back to the first page. */
export const changesAddress = (view: ChangesView, change: Partial<ChangesView>): string =>
  withQuery("/changes", { ...view, page: 1, ...change });

/** Where the whole view is downloaded. */
export const changesFileAddress = (view: ChangesView): string => withQuery("/changes.csv", { ...view, page: 1 });

function withQuery(path: string, view: ChangesView): string {
  const query = new URLSearchParams(changesAddressFields(view).map(([name, value]) => [name, value])).toString();
  return query === "" ? path : `${path}?${query}`;
}
