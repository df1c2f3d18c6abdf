import type { AssessmentBasis } from "./changes.ts";
import type { EngineModel } from "./engine-model.ts";
import type { IsoDate } from "./facts.ts";
import type { PlanScope, RepairClass } from "./kept-plan.ts";
import type { RepairScope, UnitStatus } from "./words.ts";
import type { Workshop } from "./workshop.ts";

/** What a budget was drawn from, as it is kept: enough to draw it again, whatever became of the fleet since. */

/** What tells why a unit's forecast is another one later on. */
export interface UnitSign {
  readonly lastTestDate: IsoDate | null;
  /** null: nothing of it was kept. */
  readonly basis: AssessmentBasis | null;
}

/** Probabilities at dates a month apart, the first at `from`; both lists are as long. */
export interface MonthlyChances {
  readonly from: IsoDate;
  readonly topEnd: readonly number[];
  readonly bottomEnd: readonly number[];
}

export interface KeptUnit {
  readonly unit: string;
  readonly depot: string | null;
  readonly unitClass: string | null;
  readonly status: UnitStatus;
  /** Id of the engine model. */
  readonly model: string;
  readonly disposalDate: IsoDate | null;
  readonly ageDays: Readonly<Record<RepairClass, number>>;
  /** null: its tests foresee nothing; its model foresees nothing. */
  readonly pastLimit: MonthlyChances | null;
  readonly fromModel: MonthlyChances | null;
  readonly sign: UnitSign;
}

/** A repair of the plan that the budget holds to. */
export interface KeptBudgetBooking {
  readonly unit: string;
  readonly scope: PlanScope;
  /** Monday of the week in which it begins. */
  readonly start: IsoDate;
  /** What its days out of service cost, in minor units. */
  readonly downtime: number;
  readonly isPinned: boolean;
}

/** A repair that was made, as far as it is money. In whole units of the currency. */
export interface RecordedRepair {
  readonly unit: string;
  /** Where the unit stands, and its engine model, as the budget was drawn. */
  readonly depot: string | null;
  readonly engineModel: string;
  readonly date: IsoDate;
  readonly scope: RepairScope;
  /** null: not recorded. */
  readonly cost: number | null;
  readonly labourHours: number | null;
  /** Days off the road; null: not recorded; absent: kept by a version that did not count them. */
  readonly downtimeDays?: number | null;
  /** By which a day off the road costs what it costs; absent with the days. */
  readonly unitClass?: string | null;
}

export interface KeptBudgetInputs {
  /** Counted up as this shape changes. */
  readonly format: number;
  readonly asOf: IsoDate;
  readonly workshop: Workshop;
  /** Classes of repair that a person dropped from the plan. */
  readonly dropped: readonly { readonly unit: string; readonly of: RepairClass }[];
  readonly models: readonly EngineModel[];
  readonly bookings: readonly KeptBudgetBooking[];
  /** Of the two years before the as-of date. */
  readonly repairs: readonly RecordedRepair[];
  readonly units: readonly KeptUnit[];
}

/** The inputs as rows of the store: all but the units, and the units some at a time. */
export type BudgetPart = { readonly head: Omit<KeptBudgetInputs, "units"> } | { readonly units: readonly KeptUnit[] };

/** Format of the inputs that this program keeps and reads. */
export const budgetInputsFormat = 1;
