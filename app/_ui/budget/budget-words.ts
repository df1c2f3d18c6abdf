import type { BridgeCause, BridgeStep, BudgetBridge, NoBridge } from "../../../lib/schema/bridge.ts";
import { minorDigits } from "../../../lib/schema/currency.ts";
import type { PlanScope } from "../../../lib/schema/kept-plan.ts";
import type { ScenarioChange } from "../../../lib/schema/scenario.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";
import type { YearTold } from "./year-told.ts";

/** What the Budget's pages say. */

export const causeNames: Readonly<Record<BridgeCause, string>> = {
  repairs: "Repairs done",
  time: "Days gone by",
  tests: "New tests",
  limits: "Limits",
  use: "Use of units",
  model: "Forecast model",
  disposals: "Units sold, stopped, new",
  prices: "Prices",
  plan: "Moved in the plan",
  unexplained: "Unexplained",
};

const mostly: Readonly<Record<BridgeCause, string>> = {
  repairs: "repairs done",
  time: "the days gone by",
  tests: "new tests",
  limits: "other limits",
  use: "the use of units",
  model: "the forecast model",
  disposals: "units sold, stopped or new",
  prices: "prices",
  plan: "repairs moved in the plan",
  unexplained: "what no cause explains",
};

export const scopeNames: Readonly<Record<PlanScope, string>> = {
  "top-end": "top-end",
  "bottom-end": "bottom-end",
  both: "both together",
  exchange: "exchange engine",
};

/** The name of a class of repair as a group; any other group goes by its own. */
export const groupName = (by: string, name: string): string =>
  by === "class" && Object.hasOwn(scopeNames, name) ? scopeNames[name as PlanScope] : name;

/** Why no bridge from a frozen budget can be drawn, and what to do. Currencies by their codes. */
export function noBridgeWords(
  why: NoBridge | "not-kept",
  { name, was, now }: { readonly name: string; readonly was: string; readonly now: string },
): string {
  const cannot = "No bridge can be drawn";
  const anew = "Freeze today’s budget to have one that later ones can be told against.";
  switch (why) {
    case "other-currency":
      return `${cannot}: the frozen budget “${name}” is ${inCurrency(was)} and today’s ${inCurrency(now)}, and no rate between the two is known. ${anew}`;
    case "other-year":
      return `${cannot}: the frozen budget “${name}” has no such fiscal year, or counts it from another month.`;
    case "earlier":
      return `${cannot}: the frozen budget “${name}” was made for a later day than today’s.`;
    case "not-kept":
      return `${cannot}: what the frozen budget “${name}” was drawn from is not on file in a form that this version reads. ${anew}`;
  }
}

const inCurrency = (code: string): string => (code === "XXX" ? "in a currency that is not named" : `in ${code}`);

/** What to hold for the year, the sentence that the page opens with. */
export function holdWords(f: Formats, { fiscal, whole, currency }: YearTold): string {
  const money = (amount: number) => f.money(amount, currency);
  const more = whole.p80 - whole.p50;
  return `Fiscal year ${fiscal.name} will most likely cost ${money(whole.p50)}. Hold ${money(more)} on top, and the chance of staying within is ${f.percent(80)}.`;
}

/** Why it moved since the frozen budget. */
export function movedWords(
  f: Formats,
  { from, to, steps }: BudgetBridge,
  { currency, name, asOf }: { readonly currency: string; readonly name: string; readonly asOf: string },
): string {
  const moved = to.p50 - from.p50;
  const since = `the budget “${name}” of ${f.date(asOf)}`;
  if (moved === 0) return `That is as much as ${since}.`;
  const main = mainStep(steps, moved);
  const why = main === null ? "" : `, mostly from ${mostly[main.cause]}`;
  return `That is ${f.money(Math.abs(moved), currency)} ${moved > 0 ? "more" : "less"} than ${since}${why}.`;
}

/** The step that moved it most in the direction in which it went. */
function mainStep(steps: readonly BridgeStep[], moved: number): BridgeStep | null {
  const same = steps.filter(({ p50 }) => Math.sign(p50) === Math.sign(moved));
  return same.toSorted((a, b) => Math.abs(b.p50) - Math.abs(a.p50))[0] ?? null;
}

const unitsTold = 2;

/** What is told beside a step: causes of the whole fleet, else the units that moved it most. */
export function stepWords(f: Formats, { because, units }: BridgeStep): string {
  const told = units.slice(0, unitsTold).map(({ unit, because: why }) => {
    const words = why[0];
    return words === undefined ? unit : `${unit}: ${words}`;
  });
  const more = units.length > told.length ? `; ${f.number(units.length - told.length)} more` : "";
  const names = units.map(({ unit }) => unit);
  return f.knowing(names).words(listWords(because.length > 0 ? because : told) + (because.length > 0 ? "" : more));
}

/** "+5,240", with the sign always. */
export const signedMoney = (f: Formats, amount: number, currency: string): string =>
  amount > 0 ? `+${f.money(amount, currency)}` : f.money(amount, currency);

/** What a what-if changes, in words. */
export function changeWords(f: Formats, change: ScenarioChange, currency: string): string {
  switch (change.kind) {
    case "postpone":
      return `All repairs that are not pinned ${f.number(change.months)} ${change.months === 1 ? "month" : "months"} later`;
    case "capacity":
      return `${f.percent(change.percent)} less of bays and hours ${change.depot === null ? "at all depots" : `at ${change.depot}`}`;
    case "limit": {
      const by = Math.abs(change.by);
      const step = change.of === "leak-down" ? `${f.number(by, 1)} points` : f.pressure(by);
      const what = change.of === "leak-down" ? "Leakage limit" : "Minimum compression";
      return `${what} of ${change.engineModel} ${step} ${change.by > 0 ? "higher" : "lower"}`;
    }
    case "use":
      return `All units run ${f.percent(Math.abs(change.percent))} ${change.percent < 0 ? "less" : "more"}`;
    case "run-to-limit":
      return "No top-end repair before it is past its limit; pinned ones and those of units past it already stay";
    case "exchange": {
      const price = f.money(Math.round(change.price * 10 ** minorDigits(currency)), currency);
      return `${f.number(change.count)} exchange ${change.count === 1 ? "engine" : "engines"} of ${change.engineModel} bought in ${f.month(`${change.month}-01`)}, ${price} each`;
    }
  }
}
