import { addMonths, daysBetween } from "../calendar.ts";
import type { RepairClass } from "../schema/kept-plan.ts";
import { planScopes } from "../schema/workshop.ts";
import { eventsOf, type RepairEvent } from "./events.ts";
import { fatesOf, never } from "./fates.ts";
import { normalStrata } from "./streams.ts";
import {
  type BudgetCells,
  type BudgetDraws,
  type BudgetProblem,
  type BudgetUnit,
  type CellPlace,
  cellAt,
  firstWeek,
  noCells,
} from "./types.ts";

const daysOfWeek = 7;
const daysOfYear = 365.2425;

/** A part of the fleet that is told by itself. */
export const partKey = {
  depot: (name: string) => `depot ${name}`,
  scope: (name: string) => `scope ${name}`,
  model: (name: string) => `model ${name}`,
  untested: "untested",
} as const;

export interface SimulationOptions {
  readonly seed: number;
  /** An even count; 10,000 or more. */
  readonly draws: number;
  /** Told after each unit, with the share that is done. */
  readonly onProgress?: (done: number) => void;
}

/** A repair of one draw, with what it came to in the order of `spendings`: whole minor units. */
export interface PaidRepair {
  readonly event: RepairEvent;
  readonly spent: readonly number[];
}

/** Told each repair that falls into the budget: units by their places, one after the other, draws ascending. */
type TellRepair = (unit: number, draw: number, month: number, repair: PaidRepair) => void;

/**
 * Money by month under a plan (Monte Carlo): in every draw each unit meets its limits when its forecast may have it, fails or is
 * repaired (fates.ts, events.ts), and each repair takes hours and parts about what is told, at prices that grow by one path for
 * the draw. Every amount is rounded to a whole minor unit, so all sums are exact. What was renewed does not wear out again within
 * the budget. The cost of running on past a limit is no money of the workshop's and not in it.
 */
export function simulateBudget(problem: BudgetProblem, options: SimulationOptions): BudgetDraws {
  const { units, months } = problem;
  const { draws } = options;
  const sums = noCells({ units: units.length, months });
  const failures = new Float64Array(units.length * months);
  const totals = new Float64Array(draws * months);
  const parts = new Map<string, Float64Array>();
  const partOf = (key: string) => remembered(parts, key, () => new Float64Array(draws * months));
  const scopes = new Map<string, Float64Array>();
  const ofScope = (scope: string) => remembered(scopes, scope, () => partOf(partKey.scope(scope)));
  const groups = units.map((unit) => {
    const own = [partKey.depot(unit.depot), partKey.model(unit.engineModel)];
    return (unit.isUntested ? [...own, partKey.untested] : own).map(partOf);
  });
  drawRepairs(problem, options, (u, draw, month, repair) => {
    const { event } = repair;
    if (!event.isPlanned) failures[u * months + month] = (failures[u * months + month] as number) + 1;
    const whole = addRepair(sums, { unit: u, month }, repair);
    const at = draw * months + month;
    const ofItsScope = ofScope(event.work.scope);
    totals[at] = (totals[at] as number) + whole;
    ofItsScope[at] = (ofItsScope[at] as number) + whole;
    for (const of of groups[u] as readonly Float64Array[]) of[at] = (of[at] as number) + whole;
  });
  return { draws, sums, failures, totals, parts };
}

/** Adds a repair to the cells of its unit and month; gives the whole of it. */
export function addRepair(
  sums: BudgetCells,
  { unit, month }: Pick<CellPlace, "unit" | "month">,
  { event, spent }: PaidRepair,
): number {
  const { cells } = sums;
  const occasion = event.isPlanned ? 0 : 1;
  const cell = cellAt(sums, { unit, month, occasion, scope: planScopes.indexOf(event.work.scope), spending: 0 });
  let whole = 0;
  for (let spending = 0; spending < spent.length; spending++) {
    cells[cell + spending] = (cells[cell + spending] as number) + (spent[spending] as number);
    whole += spent[spending] as number;
  }
  return whole;
}

/** The repairs of all draws, as `simulateBudget` has them; for whoever needs no more of them than he adds up. */
export function drawRepairs(
  problem: BudgetProblem,
  { seed, draws, onProgress }: SimulationOptions,
  tell: TellRepair,
): void {
  const { units, spreads } = problem;
  const factors = new Map<string, Float64Array>();
  const first = firstWeek(problem);
  const firstDay = Math.round(first * daysOfWeek);
  const monthOf = monthsOfDays(problem, firstDay);
  const priceOn = pricesOf(problem, { seed, draws });

  for (const [u, unit] of units.entries()) {
    const shared = remembered(factors, unit.engineModel, () => normalStrata(seed, `model ${unit.engineModel}`, draws));
    const fates = fatesOf(unit, { seed, shared, load: spreads.ofModel, first });
    const amountOf = amountsOf(unit, { seed, draws, spreads });
    const booked = problem.bookings.filter((booking) => booking.unit === unit.unit);
    const spend = (draw: number, event: RepairEvent) => {
      // Sevenths of a week are no exact numbers: the first day stays the first.
      const day = Math.max(firstDay, Math.floor(event.week * daysOfWeek));
      const month = monthOf[day - firstDay];
      if (month === undefined) return;
      const spent = spentOn(unit, event, { amounts: amountOf(draw, event.of), prices: priceOn(draw, day) });
      tell(u, draw, month, { event, spent });
    };
    for (let draw = 0; draw < draws; draw++) {
      // Most units need nothing in most draws.
      if (booked.length === 0 && fates.every(({ crosses }) => crosses[draw] === never)) continue;
      const each = fates.map(({ of, crosses, fails }) => ({
        of,
        crosses: crosses[draw] as number,
        fails: fails[draw] as number,
      }));
      for (const event of eventsOf(unit, booked, each, problem)) spend(draw, event);
    }
    onProgress?.((u + 1) / units.length);
  }
}

function remembered<T>(made: Map<string, T>, key: string, make: () => T): T {
  const known = made.get(key);
  if (known !== undefined) return known;
  const one = make();
  made.set(key, one);
  return one;
}

/** What one repair costs, in the order of `spendings`. */
function spentOn(
  { runningOn }: BudgetUnit,
  { work, factor, isPlanned, downtime }: RepairEvent,
  { amounts, prices }: { readonly amounts: Amounts; readonly prices: Prices },
): readonly number[] {
  return [
    Math.round(work.labour * factor * amounts.hours * prices.labour),
    Math.round(work.parts * factor * amounts.parts * prices.parts),
    Math.round(work.machining * factor * amounts.parts * prices.labour),
    isPlanned ? 0 : Math.round(runningOn.damage * prices.parts),
    Math.round(downtime),
  ];
}

/** The month of each day from the as-of date on, `firstDay` days after the first Monday; what lies beyond the budget has none. */
function monthsOfDays({ asOf, months, firstMonday }: BudgetProblem, firstDay: number): Int16Array {
  const firstOfMonth = `${asOf.slice(0, 8)}01`;
  const dayOf = (month: number) => Math.max(0, daysBetween(firstMonday, addMonths(firstOfMonth, month)) - firstDay);
  const calendar = new Int16Array(dayOf(months));
  for (let month = 0; month < months; month++) calendar.fill(month, dayOf(month), dayOf(month + 1));
  return calendar;
}

interface Prices {
  readonly labour: number;
  readonly parts: number;
}

/** Factors on prices by draw and day: they grow from the date of the prices on, by a rate that is one draw's. */
function pricesOf(
  { prices, firstMonday, spreads }: BudgetProblem,
  { seed, draws }: { readonly seed: number; readonly draws: number },
): (draw: number, day: number) => Prices {
  const labour = normalStrata(seed, "growth of labour", draws);
  const parts = normalStrata(seed, "growth of parts", draws);
  const before = daysBetween(prices.priceDate, firstMonday);
  return (draw, day) => {
    const years = Math.max(0, before + day) / daysOfYear;
    const grown = (mean: number, z: number) => Math.max(0.01, 1 + mean + spreads.growth * z) ** years;
    return {
      labour: grown(prices.labour, labour[draw] as number),
      parts: grown(prices.parts, parts[draw] as number),
    };
  };
}

interface Amounts {
  readonly hours: number;
  readonly parts: number;
}

/** Factors on the hours and the parts of a class of repair by draw, log-normal of mean 1; drawn when they are first asked for. */
function amountsOf(
  { unit }: BudgetUnit,
  {
    seed,
    draws,
    spreads,
  }: { readonly seed: number; readonly draws: number; readonly spreads: BudgetProblem["spreads"] },
): (draw: number, of: RepairClass) => Amounts {
  const drawn = (name: string) => normalStrata(seed, `${unit} ${name}`, draws);
  const made = new Map<string, Readonly<Record<"hours" | "parts", Float64Array>>>();
  const factor = (sd: number, z: number) => Math.exp(sd * z - (sd * sd) / 2);
  return (draw, of) => {
    const { hours, parts } = remembered(made, of, () => ({ hours: drawn(`${of} hours`), parts: drawn(`${of} parts`) }));
    return {
      hours: factor(spreads.hours, hours[draw] as number),
      parts: factor(spreads.parts, parts[draw] as number),
    };
  };
}
