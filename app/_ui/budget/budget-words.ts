import type { BridgeCause, BridgeStep, BudgetBridge, NoBridge } from "../../../lib/schema/bridge.ts";
import { minorDigits } from "../../../lib/schema/currency.ts";
import type { PlanScope } from "../../../lib/schema/kept-plan.ts";
import type { ScenarioChange } from "../../../lib/schema/scenario.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { listWords } from "../../../lib/wording.ts";
import type { WhereUnit } from "./where.ts";
import { wholeMoney } from "./whole-money.ts";
import { partOfYear, type YearTold } from "./year-told.ts";

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
  unexplained: "Together, unexplained",
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
  unexplained: "what no cause explains by itself",
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

/** What to hold for the year, the sentence that the page opens with; of a year that the budget ends in, for which of its months. */
export function holdWords(f: Formats, told: YearTold): string {
  const { fiscal, whole, currency } = told;
  const money = (amount: number) => wholeMoney(f, amount, currency);
  const part = partOfYear(told);
  const months =
    part === null
      ? `Fiscal year ${fiscal.name}`
      : part.first === part.last
        ? `${f.month(`${part.first}-01`)} alone, all of fiscal year ${fiscal.name} that the budget reaches,`
        : `${f.month(`${part.first}-01`)} to ${f.month(`${part.last}-01`)}, all of fiscal year ${fiscal.name} that the budget reaches,`;
  const even =
    whole.p50 === 0
      ? "is at least as likely to cost nothing as anything"
      : `is as likely to cost more than ${money(whole.p50)} as less`;
  return `${months} ${even}. Hold ${money(whole.p80 - whole.p50)} on top, and the chance of staying within is ${f.percent(80)}.`;
}

export const furtherOffNote =
  "Years further off are rougher: little of them is booked yet, so that they hang on a few large repairs which come or do not, and another seed moves their figures more.";

/** A name that people gave, short enough to stand in a sentence. */
export const shortName = (name: string): string =>
  name.length <= mostLetters ? name : `${name.slice(0, mostLetters - 1).trimEnd()}…`;

const mostLetters = 40;

/** Why it moved since the frozen budget. */
export function movedWords(
  f: Formats,
  { from, to, steps }: BudgetBridge,
  { currency, name, asOf }: { readonly currency: string; readonly name: string; readonly asOf: string },
): string {
  const moved = to.p50 - from.p50;
  const since = `the budget “${shortName(name)}” of ${f.date(asOf)}`;
  if (moved === 0) return `That is as much as ${since}.`;
  const main = mainStep(steps, moved);
  const why = main === null ? "" : `, mostly from ${mostly[main.cause]}`;
  return `That is ${wholeMoney(f, Math.abs(moved), currency)} ${moved > 0 ? "more" : "less"} than ${since}${why}.`;
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

/** "+5,240", with its sign; "0" for what no whole unit shows. */
export function signedMoney(f: Formats, amount: number, currency: string): string {
  const words = wholeMoney(f, amount, currency);
  return amount > 0 && words !== wholeMoney(f, 0, currency) ? `+${words}` : words;
}

/** What a what-if changes, in words. */
export function changeWords(f: Formats, change: ScenarioChange, currency: string): string {
  switch (change.kind) {
    case "postpone":
      return `All repairs ${f.number(change.months)} ${change.months === 1 ? "month" : "months"} later: those booked but not pinned, and what is not booked after its limit`;
    case "capacity":
      return `${f.percent(change.percent, Number.isInteger(change.percent) ? 0 : 1)} of working days closed ${change.depot === null ? "at all depots" : `at ${change.depot}`}`;
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

/** What a unit's money is for: "top-end as booked 2,480; bottom-end where it is needed 310" */
export const forWords = (f: Formats, { scopes }: WhereUnit, currency: string): string =>
  scopes
    .map(
      ({ scope, expected, isBooked }) =>
        `${scopeNames[scope]} ${isBooked ? "as booked" : "where it is needed"} ${wholeMoney(f, expected, currency)}`,
    )
    .join("; ");
