import { type Figure, figures, type Origin, origins } from "../../../lib/schema/comparison.ts";
import { longestName } from "../../../lib/schema/longest-name.ts";
import { type JudgedMeasure, judgedMeasures, type MeterUnit, meterUnits } from "../../../lib/schema/words.ts";

/** What the Compare page's address says. */
export interface CompareView {
  /** null: not named; the units' own, or the largest. */
  readonly model: string | null;
  readonly meterUnit: MeterUnit | null;
  readonly measure: JudgedMeasure;
  readonly since: Origin;
  readonly of: Figure;
  readonly units: readonly string[];
  /** Of `of` "each": the cylinders drawn; empty: all. */
  readonly cylinders: readonly number[];
}

export type AddressParts = Readonly<Record<string, string | readonly string[] | undefined>>;

/** So many units have colours of their own. */
export const mostUnits = 8;

/** A model is led by its meter unit and a colon. */
const longestUnit = 4;

/** Reads the address. What it does not understand counts as not asked for. */
export function readCompareAddress(parts: AddressParts): CompareView {
  const all = (name: string): string[] => {
    const value = parts[name];
    const some = typeof value === "string" ? [value] : (value ?? []);
    return some.map((text) => text.trim().slice(0, longestName + longestUnit)).filter((text) => text !== "");
  };
  const [kind = ""] = all("model");
  const { model, meterUnit } = readKind(kind);
  const numbers = all("cylinder").map(Number);
  return {
    model: model === "" ? null : model,
    meterUnit,
    measure: judgedMeasures.find((m) => m === all("measure")[0]) ?? "leak-down",
    since: origins.find((o) => o === all("since")[0]) ?? "new",
    of: figures.find((of) => of === all("of")[0]) ?? "weakest",
    units: [...new Set(all("unit"))].slice(0, mostUnits),
    cylinders: [...new Set(numbers.filter((n) => Number.isInteger(n) && n > 0))].sort((a, b) => a - b),
  };
}

/**
 * A model as the address names it. Hours and distances of one model are no sisters: the meter unit is part of the choice,
 * and stands first, for a model may be called anything.
 */
export const kindOf = (of: { readonly engineModel: string; readonly meterUnit: MeterUnit | null }): string =>
  of.meterUnit === null && readKind(of.engineModel).meterUnit === null && !of.engineModel.startsWith(":")
    ? of.engineModel
    : `${of.meterUnit ?? ""}:${of.engineModel}`;

function readKind(kind: string): { readonly model: string; readonly meterUnit: MeterUnit | null } {
  const split = kind.indexOf(":");
  const unit = meterUnits.find((known) => known === kind.slice(0, Math.max(0, split))) ?? null;
  return { model: unit !== null || split === 0 ? kind.slice(split + 1) : kind, meterUnit: unit };
}

/** The address of a view with some of it changed; what is as usual is left out. */
export const compareAddress = (view: Partial<CompareView>, change: Partial<CompareView> = {}): string =>
  addressOf("/compare", viewFields({ ...view, ...change }));

/** The page's tables: every unit beside its sisters, the band, and the units drawn. */
export type CompareTable = "units" | "band" | "lines";

/** Where a table of the view is downloaded. */
export function compareFileAddress(view: CompareView, table: CompareTable): string {
  const query = viewFields(view);
  query.append("table", table);
  return addressOf("/compare.csv", query);
}

function viewFields(view: Partial<CompareView>): URLSearchParams {
  const { model = null, meterUnit, measure = "leak-down", since = "new", ...rest } = view;
  const { of = "weakest", units = [], cylinders = [] } = rest;
  const query = new URLSearchParams();
  if (model !== null) query.append("model", kindOf({ engineModel: model, meterUnit: meterUnit ?? null }));
  if (measure !== "leak-down") query.append("measure", measure);
  if (since !== "new") query.append("since", since);
  if (of !== "weakest") query.append("of", of);
  for (const unit of units) query.append("unit", unit);
  for (const cylinder of cylinders) query.append("cylinder", String(cylinder));
  return query;
}

const addressOf = (path: string, query: URLSearchParams): string => (query.size === 0 ? path : `${path}?${query}`);
