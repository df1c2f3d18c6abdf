import type { BudgetDocument } from "../lib/schema/budget-document.ts";
import type { BudgetPart } from "../lib/schema/kept-budget.ts";
import type { KeptPlan, PlanScope } from "../lib/schema/kept-plan.ts";
import type { ScenarioChange, ScenarioResult } from "../lib/schema/scenario.ts";
import type { Workshop } from "../lib/schema/workshop.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** What a person said of a unit's repair that the next plan must keep to. `drop`: it is not to be booked. */
export type PlanChoiceKind = "pin" | "drop";

/** Why a choice holds no longer: another one took its place, a person took it back, its repair was made, or its week has gone by. */
export type ChoiceEnd = "replaced" | "taken-back" | "repaired" | "gone-by";

/** Plans and budgets as they were made, and what people told them. Nothing in here is changed once it is written. */
export function planTables(v: Vocabulary) {
  /** All that people tell of prices and workshops beside the depots' own capacity; the highest id is in force. */
  const workshopChanges = v.table("workshop_changes", {
    id: v.id(),
    workshop: v.json<Workshop>().notNull(),
    by: v.text().notNull(),
    at: v.instant().notNull(),
  });

  /** Every plan that was made; that with the highest id is in force. */
  const plans = v.table("plans", {
    id: v.id(),
    asOf: v.date().notNull(),
    madeAt: v.instant().notNull(),
    by: v.text().notNull(),
    /** What it was made from, as text that is compared as a whole. */
    basis: v.text().notNull(),
    /** Prices, workshops and pins that it keeps to. */
    workshop: v.json<Workshop>().notNull(),
    plan: v.json<KeptPlan>().notNull(),
  });

  /** The bookings of every plan, to be found by their unit when its repair is recorded. */
  const planBookings = v.table(
    "plan_bookings",
    {
      plan: v
        .int()
        .notNull()
        .references(() => plans.id, { onDelete: "cascade" }),
      place: v.int().notNull(),
      unit: v.text().notNull(),
      scope: v.word<PlanScope>().notNull(),
      start: v.date().notNull(),
      /** As-of date of the plan. */
      asOf: v.date().notNull(),
    },
    (t) => [v.primaryKey({ columns: [t.plan, t.place] }), v.index("plan_bookings_unit").on(t.unit, t.plan)],
  );

  const planChoices = v.table(
    "plan_choices",
    {
      id: v.id(),
      unit: v.text().notNull(),
      kind: v.word<PlanChoiceKind>().notNull(),
      scope: v.word<PlanScope>().notNull(),
      /** Monday of the week in which a pinned repair begins; null: dropped. */
      date: v.date(),
      /** Keys of the unit's repairs that were on file then: any other one may have made this repair. */
      known: v.json<readonly string[]>().notNull().default([]),
      by: v.text().notNull(),
      at: v.instant().notNull(),
      /** null: in force. */
      endedAt: v.instant(),
      endedBy: v.text(),
      endedBecause: v.word<ChoiceEnd>(),
    },
    (t) => [v.index("plan_choices_unit").on(t.unit), v.index("plan_choices_ended").on(t.endedAt)],
  );

  /** Budgets: the newest one that is not frozen is today's, the frozen ones stay. */
  const budgets = v.table(
    "budgets",
    {
      id: v.id(),
      plan: v.int().notNull(),
      asOf: v.date().notNull(),
      madeAt: v.instant().notNull(),
      by: v.text().notNull(),
      basis: v.text().notNull(),
      seed: v.int().notNull(),
      draws: v.int().notNull(),
      document: v.json<BudgetDocument>().notNull(),
      /** Given as it was frozen; null: it is not. */
      name: v.text(),
      frozenAt: v.instant(),
      frozenBy: v.text(),
      withdrawnAt: v.instant(),
      withdrawnBy: v.text(),
    },
    (t) => [v.index("budgets_name").on(t.name)],
  );

  /** What a budget was drawn from, in parts: enough to draw it again with something else put in. */
  const budgetInputs = v.table(
    "budget_inputs",
    {
      budget: v
        .int()
        .notNull()
        .references(() => budgets.id, { onDelete: "cascade" }),
      place: v.int().notNull(),
      part: v.json<BudgetPart>().notNull(),
    },
    (t) => [v.primaryKey({ columns: [t.budget, t.place] })],
  );

  /** What-ifs that people named. */
  const scenarios = v.table("scenarios", {
    id: v.id(),
    name: v.text().notNull(),
    change: v.json<ScenarioChange>().notNull(),
    by: v.text().notNull(),
    at: v.instant().notNull(),
    withdrawnAt: v.instant(),
    withdrawnBy: v.text(),
  });

  /** What came of each when it was last reckoned; derived. */
  const scenarioResults = v.table("scenario_results", {
    scenario: v.id(),
    basis: v.text().notNull(),
    madeAt: v.instant().notNull(),
    result: v.json<ScenarioResult>().notNull(),
  });

  return { workshopChanges, plans, planBookings, planChoices, budgets, budgetInputs, scenarios, scenarioResults };
}
