import type { PlanScope } from "../../../lib/schema/kept-plan.ts";
import { planScopes } from "../../../lib/schema/workshop.ts";
import type { AddressParts } from "../compare/address.ts";
import type { Understood } from "../not-understood.tsx";

export const spans = [26, 52, 104] as const;
export type Span = (typeof spans)[number];

/** What of the plan is looked at. */
export interface PlanView {
  readonly span: Span;
  /** The booking that is chosen; null: none. */
  readonly unit: string | null;
  readonly scope: PlanScope | null;
  /** Monday of the week to which it may be moved; null: it stays. */
  readonly to: string | null;
  /** Whether it may be split in two. */
  readonly split: boolean;
}

export const wholePlan: PlanView = { span: 52, unit: null, scope: null, to: null, split: false };

const isMonday = (date: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(date) && !Number.isNaN(Date.parse(date)) && new Date(date).getUTCDay() === 1;

/** A page can't show control signs, and no name holds any. */
const isName = (value: string): boolean => /^\P{Cc}+$/u.test(value);

/** What of the plan's address is understood: a repair, a week and a split only of a unit. */
export const understoodOfPlan = (parts: AddressParts): Understood => {
  const hasUnit = typeof parts["unit"] === "string" && isName(parts["unit"]);
  return {
    weeks: (value) => spans.some((span) => String(span) === value),
    unit: isName,
    scope: (value) => hasUnit && planScopes.some((scope) => scope === value),
    to: (value) => hasUnit && isMonday(value),
    split: (value) => hasUnit && value === "yes",
  };
};

/** What an address asks for; what it does not say, or says in a way that is not understood, is as in the whole plan. */
export function readPlanAddress(parts: AddressParts): PlanView {
  const text = (name: string): string | null => {
    const value = parts[name];
    return typeof value === "string" && isName(value) ? value : null;
  };
  const to = text("to");
  const unit = text("unit");
  return {
    span: spans.find((span) => String(span) === text("weeks")) ?? wholePlan.span,
    unit,
    scope: unit === null ? null : (planScopes.find((scope) => scope === text("scope")) ?? null),
    to: unit !== null && to !== null && isMonday(to) ? to : null,
    split: unit !== null && text("split") === "yes",
  };
}

export function planAddress(view: Partial<PlanView>): string {
  const { span, unit, scope, to, split } = { ...wholePlan, ...view };
  const parts = new URLSearchParams();
  if (span !== wholePlan.span) parts.set("weeks", String(span));
  if (unit !== null) parts.set("unit", unit);
  if (unit !== null && scope !== null) parts.set("scope", scope);
  if (unit !== null && to !== null) parts.set("to", to);
  if (unit !== null && split) parts.set("split", "yes");
  const said = parts.toString();
  return said === "" ? "/plan" : `/plan?${said}`;
}
