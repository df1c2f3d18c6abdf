import { addMonths } from "../calendar.ts";
import type { Plan } from "../plan/make-plan.ts";
import { planProblemOf, type UnitOutlook } from "../plan/problem-of.ts";
import type { PlanProblem } from "../plan/types.ts";
import { ok, type Result } from "../result.ts";
import type { KeptBudgetBooking } from "../schema/kept-budget.ts";
import type {
  NoScenario,
  ScenarioChange,
  ScenarioMove,
  ScenarioResult,
  ScenarioStay,
  ScenarioYear,
} from "../schema/scenario.ts";
import { budgetDocument } from "./document.ts";
import { fiscalYearOf, monthsIn } from "./fiscal-year.ts";
import { bookedIn, problemOfInputs } from "./frame.ts";
import type { BudgetInputs } from "./inputs.ts";
import { cutTo, monthsForeseen, type ScenarioInputs, scenarioInputs, withEngines } from "./scenario-inputs.ts";
import { bookingsThatStay, isStaying } from "./scenario-stays.ts";
import { simulateBudget } from "./simulate.ts";
import type { BudgetProblem } from "./types.ts";

export interface ScenarioOptions {
  readonly seed: number;
  /** An even count; 10,000 or more. */
  readonly draws: number;
  /** The cheapest plan for a problem; asked for where a change calls for another one. */
  readonly plan: (problem: PlanProblem) => Pick<Plan, "bookings">;
  /** The units of `modelOfScenario`, assessed under it; none where that is null. */
  readonly reassessed: readonly UnitOutlook[];
  readonly onProgress?: (done: number) => void;
}

/** Share of the way that each of the draws takes; the rest is the plans'. */
const drawShare = 0.25;

/**
 * A scenario beside the base, both drawn with the same random numbers: what a fiscal year's rest costs, what of it comes of failures,
 * how many are expected, which repairs are booked elsewhere and which stay though others like them move. Postponing and running to the limit keep to the base's bookings as
 * far as they go; for all other changes a plan is made that knows them, and keeps to the same pins. The base is then planned anew in
 * the same way: a plan that was made before, or amended since, would differ from a new one without any change. Where the forecasts
 * of either end before the budget does, both are drawn until then alone.
 */
export function runScenario(
  base: BudgetInputs,
  change: ScenarioChange,
  { seed, draws, plan, reassessed, onProgress }: ScenarioOptions,
): Result<ScenarioResult, NoScenario> {
  const made = scenarioInputs(base, change, reassessed);
  if (!made.ok) return made;
  const scenario = made.value;
  const { asOf, workshop } = base;
  const months = Math.min(monthsForeseen(base), monthsForeseen(scenario.inputs));
  const problemOf = (inputs: BudgetInputs): BudgetProblem => ({ ...problemOfInputs(inputs), months });
  const drawn = (problem: BudgetProblem, from: number) =>
    yearsOf(problem, base, { seed, draws, onProgress: (done) => onProgress?.(from + drawShare * done) });

  const booked = drawn(problemOf(base), 0);
  const beside = scenario.replans ? planned({ inputs: base, capacity: () => 1, bought: null }, plan) : base;
  const besideProblem = problemOf(beside);
  const anew = scenario.replans ? movesBetween(base, beside, problemOf(base)).length : 0;
  const before = anew > 0 ? drawn(besideProblem, drawShare) : booked;
  onProgress?.(2 * drawShare);
  const inputs = scenario.replans ? planned(scenario, plan) : scenario.inputs;
  onProgress?.(1 - drawShare);
  const problem = problemOf(inputs);
  const stays = bookingsThatStay(change, inputs, problem);
  const bookings = scenario.topEndPastLimit
    ? problem.bookings.map((booked, place) => ({
        ...booked,
        topEndPastLimit: !isStaying(stays, inputs.bookings[place] as KeptBudgetBooking),
      }))
    : problem.bookings;
  const after = drawn({ ...problem, bookings }, 1 - drawShare).map((year) => withBought(year, scenario, base));
  return ok({
    asOf,
    currency: workshop.currency,
    seed,
    draws,
    lastMonth: months < workshop.budgetMonths ? addMonths(`${asOf.slice(0, 8)}01`, months - 1).slice(0, 7) : null,
    replanned: scenario.replans ? { expected: expectedOf(before) - expectedOf(booked), moves: anew } : null,
    base: before,
    scenario: after,
    bought: scenario.bought?.amount ?? 0,
    moves: movesBetween(beside, scenario.topEndPastLimit ? leftAlone(inputs, stays) : inputs, besideProblem),
    stays: stays.toSorted((a, b) => (a.unit < b.unit ? -1 : a.unit > b.unit ? 1 : a.start < b.start ? -1 : 1)),
  });
}

const expectedOf = (years: readonly ScenarioYear[]): number => years.reduce((sum, { expected }) => sum + expected, 0);

/** The inputs with the bookings of a plan that is made for them. */
function planned(
  { inputs, capacity, bought }: Pick<ScenarioInputs, "inputs" | "capacity" | "bought">,
  plan: ScenarioOptions["plan"],
): BudgetInputs {
  const { asOf, workshop, dropped, units } = inputs;
  const { problem } = planProblemOf(
    units.map(({ outlook }) => outlook),
    workshop,
    { asOf, dropped },
  );
  const bookings = plan(withEngines(cutTo(problem, capacity), bought)).bookings.map(
    ({ unit, scope, start, cost, isPinned }): KeptBudgetBooking => ({
      unit,
      scope,
      start,
      downtime: cost.downtime,
      isPinned,
    }),
  );
  return { ...inputs, bookings };
}

function yearsOf(
  problem: BudgetProblem,
  { workshop }: BudgetInputs,
  {
    seed,
    draws,
    onProgress,
  }: { readonly seed: number; readonly draws: number; readonly onProgress: (done: number) => void },
): readonly ScenarioYear[] {
  const drawn = simulateBudget(problem, { seed, draws, onProgress });
  const { fiscalYears } = budgetDocument(problem, drawn, { ...workshop, seed });
  return fiscalYears.map(({ name, firstMonth, expected, p50, p80, p95, planned: chosen, unplanned }) => {
    const { from, to } = monthsIn(fiscalYearOf(`${firstMonth}-01`, workshop.fiscalYearStartMonth), problem);
    let failures = 0;
    for (let unit = 0; unit < problem.units.length; unit++) {
      for (let month = from; month < to; month++) failures += drawn.failures[unit * problem.months + month] as number;
    }
    return {
      name,
      expected,
      p50,
      p80,
      p95,
      unplanned: Object.values(unplanned).reduce((a, b) => a + b, 0),
      downtime: chosen.downtime + unplanned.downtime,
      failures: failures / draws,
    };
  });
}

/** What is bought is sure: it lies on all amounts of its year alike. */
function withBought(year: ScenarioYear, { bought }: ScenarioInputs, { workshop }: BudgetInputs): ScenarioYear {
  if (bought === null || fiscalYearOf(`${bought.month}-01`, workshop.fiscalYearStartMonth).name !== year.name)
    return year;
  const { amount } = bought;
  return {
    ...year,
    expected: year.expected + amount,
    p50: year.p50 + amount,
    p80: year.p80 + amount,
    p95: year.p95 + amount,
  };
}

/** What is sure to be booked where top ends wait for their limits: of both the bottom end. */
const leftAlone = (inputs: BudgetInputs, stays: readonly ScenarioStay[]): BudgetInputs => ({
  ...inputs,
  bookings: inputs.bookings.flatMap((booking) =>
    isStaying(stays, booking)
      ? [booking]
      : booking.scope === "top-end"
        ? []
        : booking.scope === "both"
          ? [{ ...booking, scope: "bottom-end" as const }]
          : [booking],
  ),
});

/** Bookings that are not where they were, by unit. */
function movesBetween(was: BudgetInputs, now: BudgetInputs, problem: BudgetProblem): readonly ScenarioMove[] {
  const names = [...new Set([...was.bookings, ...now.bookings].map(({ unit }) => unit))].toSorted();
  return names.flatMap((unit) => {
    const own = ({ bookings }: BudgetInputs) =>
      bookings.filter((one) => one.unit === unit).toSorted((a, b) => (a.start < b.start ? -1 : 1));
    const isIn = (all: readonly KeptBudgetBooking[], { scope, start }: KeptBudgetBooking) =>
      all.some((one) => one.scope === scope && one.start === start);
    const gone = own(was).filter((one) => !isIn(own(now), one));
    const added = own(now).filter((one) => !isIn(own(was), one));
    return Array.from({ length: Math.max(gone.length, added.length) }, (_, i): ScenarioMove => {
      const [from, to] = [gone[i], added[i]];
      return {
        unit,
        from: from === undefined ? null : { scope: from.scope, start: from.start },
        to: to === undefined ? null : { scope: to.scope, start: to.start },
        pastLimit: from === undefined ? null : chanceOf(problem, from),
      };
    });
  });
}

/** Chance that a limit which a booking cures is met by its week; of two at most their sum, for they rather shut each other out. */
function chanceOf(problem: BudgetProblem, booking: KeptBudgetBooking): number | null {
  const [booked] = bookedIn([booking], problem);
  const unit = problem.units.find((one) => one.unit === booking.unit);
  const work = unit?.works.find(({ scope }) => scope === booking.scope);
  if (booked === undefined || unit === undefined || work === undefined) return null;
  const chances = unit.needs
    .filter(({ of }) => work.cures.includes(of))
    .map(({ crossed }) => crossed[Math.min(Math.max(0, booked.week), crossed.length - 1)] as number);
  return Math.min(
    1,
    chances.reduce((a, b) => a + b, 0),
  );
}
