import { addDays, addMonths, daysBetween, mondayOnOrAfter } from "../calendar.ts";
import { monthsToWeeks, type UnitOutlook } from "../plan/problem-of.ts";
import type { PlanProblem } from "../plan/types.ts";
import { minorUnits } from "../plan/works-of.ts";
import { fail, ok, type Result } from "../result.ts";
import { type EngineModel, engineModelSchema } from "../schema/engine-model.ts";
import type { NoScenario, ScenarioChange } from "../schema/scenario.ts";
import type { BudgetInputs } from "./inputs.ts";
import type { ShareLeft } from "./scenario-capacity.ts";
import { postponed } from "./scenario-postponed.ts";

/** What a scenario draws in place of the base. */
export interface ScenarioInputs {
  readonly inputs: BudgetInputs;
  /** Whether a plan is made for it: what the base has booked need not be the best any more. */
  readonly replans: boolean;
  readonly capacity: ShareLeft;
  /** Weeks that a repair which is not booked waits longer. */
  readonly waitsWeeks: number;
  /** Top ends are left alone until they are past their limit. */
  readonly topEndPastLimit: boolean;
  /** Spare engines paid once, in a month of the budget, minor units; there from that month's first on. */
  readonly bought: {
    readonly month: string;
    readonly amount: number;
    readonly engineModel: string;
    readonly count: number;
  } | null;
}

/**
 * The engine model as a scenario has it, where a limit of it moves: whoever asks assesses its units under this model. null: no unit
 * need be assessed again.
 */
export function modelOfScenario(
  { units }: Pick<BudgetInputs, "units">,
  change: ScenarioChange,
): Result<EngineModel | null, NoScenario> {
  if (change.kind !== "limit") return ok(null);
  const { engineModel, of, by } = change;
  const model = units.find(({ outlook }) => outlook.model.id === engineModel)?.outlook.model;
  if (model === undefined) return fail({ code: "unknown-model", engineModel });
  const { leakDown, compression } = model;
  const moved =
    of === "leak-down"
      ? leakDown && {
          limit: leakDown.limitPercent + by,
          model: { ...model, leakDown: withLimit(leakDown, leakDown.limitPercent + by) },
        }
      : compression && {
          limit: compression.minimumKpa + by,
          model: { ...model, compression: { ...compression, minimumKpa: compression.minimumKpa + by } },
        };
  if (moved === undefined) return fail({ code: "no-such-limit", engineModel });
  const parsed = engineModelSchema.safeParse(moved.model);
  return parsed.success ? ok(parsed.data) : fail({ code: "limit-out-of-range", engineModel, limit: moved.limit });
}

/** A lower limit takes the levels that would lie above it down with it. */
const withLimit = (leakDown: NonNullable<EngineModel["leakDown"]>, limitPercent: number) => ({
  ...leakDown,
  limitPercent,
  planPercent: Math.min(leakDown.planPercent, limitPercent),
  watchPercent: Math.min(leakDown.watchPercent, limitPercent),
});

/** @param reassessed the units whose engine model `modelOfScenario` gives, as they are assessed under it */
export function scenarioInputs(
  base: BudgetInputs,
  change: ScenarioChange,
  reassessed: readonly UnitOutlook[],
): Result<ScenarioInputs, NoScenario> {
  const as = (more: Partial<ScenarioInputs>): Result<ScenarioInputs, NoScenario> =>
    ok({
      ...{ inputs: base, replans: true, capacity: () => 1, waitsWeeks: 0, topEndPastLimit: false, bought: null },
      ...more,
    });
  switch (change.kind) {
    case "postpone":
      return as({
        inputs: { ...base, bookings: postponed(base, change.months) },
        replans: false,
        waitsWeeks: monthsToWeeks(change.months),
      });
    case "capacity": {
      const { depot, percent } = change;
      if (depot !== null && !base.units.some(({ outlook }) => outlook.depot === depot))
        return fail({ code: "unknown-depot", depot });
      return as({ capacity: (name) => (depot === null || depot === name ? 1 - percent / 100 : 1) });
    }
    case "limit": {
      const model = modelOfScenario(base, change);
      return model.ok ? as({ inputs: withOutlooks(base, reassessed) }) : model;
    }
    case "use":
      return as({
        inputs: withOutlooks(
          base,
          base.units.map(({ outlook }) => usedBy(1 + change.percent / 100, outlook, base.asOf)),
        ),
      });
    case "run-to-limit":
      return as({ replans: false, topEndPastLimit: true });
    case "exchange":
      return exchangeBought(base, change, as);
  }
}

/**
 * Months of the budget, from that of the as-of date on, to whose end the forecasts of all units reach: what lies beyond would be
 * drawn as if nothing were due. A unit that is sold before then needs no forecast after it.
 */
export function monthsForeseen({ asOf, workshop, units }: BudgetInputs): number {
  const firstOfMonth = `${asOf.slice(0, 8)}01`;
  const ends = units.flatMap(({ outlook: { status, pastLimit, fromModel, disposalDate } }) => {
    const end = (pastLimit.length > 0 ? pastLimit : fromModel).at(-1)?.date;
    return end === undefined || status === "retired" || (disposalDate !== null && disposalDate <= end) ? [] : [end];
  });
  const isForeseen = (months: number) => ends.every((end) => addMonths(firstOfMonth, months) <= end);
  let months = workshop.budgetMonths;
  while (months > 1 && !isForeseen(months)) months--;
  return months;
}

function withOutlooks(base: BudgetInputs, outlooks: readonly UnitOutlook[]): BudgetInputs {
  const by = new Map(outlooks.map((outlook) => [outlook.unit, outlook]));
  return {
    ...base,
    units: base.units.map((unit) => ({ ...unit, outlook: by.get(unit.outlook.unit) ?? unit.outlook })),
  };
}

/**
 * A unit that is used so many times as much: limits are met so many times as soon, counted from the as-of date, and the lives that
 * it has behind it are told in days of the new use. What the forecast reaches is cut by as much.
 */
function usedBy(times: number, outlook: UnitOutlook, asOf: string): UnitOutlook {
  const sooner = (chances: UnitOutlook["pastLimit"]) =>
    chances.map((one) => ({ ...one, date: addDays(asOf, Math.round(daysBetween(asOf, one.date) / times)) }));
  const { topEnd, bottomEnd } = outlook.ageDays;
  return {
    ...outlook,
    pastLimit: sooner(outlook.pastLimit),
    fromModel: sooner(outlook.fromModel),
    ageDays: { topEnd: topEnd / times, bottomEnd: bottomEnd / times },
  };
}

function exchangeBought(
  base: BudgetInputs,
  { engineModel, count, price, month }: Extract<ScenarioChange, { kind: "exchange" }>,
  as: (more: Partial<ScenarioInputs>) => Result<ScenarioInputs, NoScenario>,
): Result<ScenarioInputs, NoScenario> {
  const model = base.units.find(({ outlook }) => outlook.model.id === engineModel)?.outlook.model;
  if (model === undefined) return fail({ code: "unknown-model", engineModel });
  if (model.repairs?.exchange === undefined) return fail({ code: "no-exchange", engineModel });
  const { workshop, asOf } = base;
  const lastMonth = addMonths(`${asOf.slice(0, 8)}01`, monthsForeseen(base) - 1).slice(0, 7);
  if (month < asOf.slice(0, 7) || month > lastMonth) return fail({ code: "month-outside", month });
  const spare = workshop.spares[engineModel] ?? { count: 0, turnaroundWeeks: 12 };
  return as({
    // Repairs with a spare engine are told where there are spares of the model, even none so far.
    inputs: { ...base, workshop: { ...workshop, spares: { ...workshop.spares, [engineModel]: spare } } },
    bought: { month, amount: Math.round(count * price * minorUnits(workshop.currency)), engineModel, count },
  });
}

/** The problem with the spare engines that are bought, from the first Monday of their month on. */
export function withEngines(problem: PlanProblem, bought: ScenarioInputs["bought"]): PlanProblem {
  const spare = bought === null ? undefined : problem.spares[bought.engineModel];
  if (bought === null || spare === undefined) return problem;
  const { engineModel, count, month } = bought;
  const days = daysBetween(problem.firstMonday, mondayOnOrAfter(`${month}-01`));
  const more = { count, fromWeek: Math.max(0, Math.round(days / 7)) };
  return { ...problem, spares: { ...problem.spares, [engineModel]: { ...spare, more } } };
}
