import { daysBetween } from "../calendar.ts";
import type { PlanUnit, PriceGrowth } from "../plan/types.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { PlanScope } from "../schema/kept-plan.ts";
import { planScopes } from "../schema/workshop.ts";

/** What money is spent on. `damage` is what a failure costs beside the dearer repair. */
export const spendings = ["labour", "parts", "machining", "damage", "downtime"] as const;

/** Whether a repair was made at a time that somebody chose, or after a failure. */
export const occasions = ["planned", "unplanned"] as const;

export interface BudgetUnit extends PlanUnit {
  /** Never tested, or too seldom: what its model foresees. */
  readonly isUntested: boolean;
}

/** How far prices and amounts of work may lie from what is told. */
export interface BudgetSpreads {
  /** Standard deviation of the logarithm of a repair's hours, and of its parts and machining, about what the model tells. */
  readonly hours: number;
  readonly parts: number;
  /** Standard deviation of the growth of prices a year, as a share; one draw for all repairs. */
  readonly growth: number;
  /** Share of what is uncertain of a crossing that all engines of a model have in common: 0 to 1. */
  readonly ofModel: number;
}

export interface BookedRepair {
  readonly unit: string;
  readonly scope: PlanScope;
  /** Weeks after the first Monday; below nought: in what is left of the week in which the budget is made (`firstWeek`). */
  readonly week: number;
  /** What its days out of service cost in its weeks, as the plan has it; absent: all of them at what a day costs. */
  readonly downtime?: number;
  /** The top end is left alone where its limit is not met by then: it follows its limit as what is not booked does. */
  readonly topEndPastLimit?: boolean;
}

export interface BudgetProblem {
  /** Months from that of the as-of date on, which is the first. */
  readonly asOf: IsoDate;
  readonly months: number;
  /** Monday from which weeks are counted, as the plan has it. */
  readonly firstMonday: IsoDate;
  readonly units: readonly BudgetUnit[];
  readonly bookings: readonly BookedRepair[];
  readonly prices: PriceGrowth;
  readonly spreads: BudgetSpreads;
  /** As the plan has them: weeks by which a repair that is not booked follows its crossing, and that join two. */
  readonly missWeeks: number;
  readonly togetherWeeks: number;
}

/**
 * The week in which a budget begins: its as-of date as weeks after the first Monday, above −1 up to 0. What is due at once comes then,
 * so that the days before the first Monday have their money too.
 */
export const firstWeek = ({ asOf, firstMonday }: Pick<BudgetProblem, "asOf" | "firstMonday">): number =>
  Math.min(0, daysBetween(firstMonday, asOf)) / 7;

/** Whole minor units, for each unit, month, occasion, scope of repair and spending; `cells[cellAt(…)]`. */
export interface BudgetCells {
  readonly units: number;
  readonly months: number;
  readonly cells: Float64Array;
}

/** The place of a cell; occasion, scope and spending by their places in the lists of words. */
export interface CellPlace {
  readonly unit: number;
  readonly month: number;
  readonly occasion: number;
  readonly scope: number;
  readonly spending: number;
}

const cellsOfMonth = occasions.length * planScopes.length * spendings.length;

export const cellAt = (
  { months }: Pick<BudgetCells, "months">,
  { unit, month, occasion, scope, spending }: CellPlace,
): number =>
  (unit * months + month) * cellsOfMonth + (occasion * planScopes.length + scope) * spendings.length + spending;

export const noCells = ({ units, months }: Pick<BudgetCells, "units" | "months">): BudgetCells => ({
  units,
  months,
  cells: new Float64Array(units * months * cellsOfMonth),
});

/** What came out of all draws. */
export interface BudgetDraws {
  readonly draws: number;
  /** Sums over all draws. */
  readonly sums: BudgetCells;
  /** Failures of each unit in each month, over all draws: `failures[unit · months + month]`. */
  readonly failures: Float64Array;
  /** Of each draw and month the whole: `totals[draw · months + month]`. */
  readonly totals: Float64Array;
  /** The same for each part of the fleet that is told by itself, by its key. */
  readonly parts: ReadonlyMap<string, Float64Array>;
}
