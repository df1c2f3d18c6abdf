import { addMonths } from "../calendar.ts";
import type { UnitOutlook } from "../plan/problem-of.ts";
import {
  budgetInputsFormat,
  type KeptBudgetInputs,
  type KeptUnit,
  type MonthlyChances,
  type UnitSign,
} from "../schema/kept-budget.ts";
import { workshopSchema } from "../schema/workshop.ts";

/** Repairs of so many months before the as-of date are kept: those of the fiscal year so far are always among them. */
export const monthsOfRepairs = 24;

/** A unit as a budget is drawn from it, and what tells later why its forecast is another one. */
export interface InputUnit {
  readonly outlook: UnitOutlook;
  readonly sign: UnitSign;
}

/** All that a budget is drawn from. Units and bookings in any order. */
export interface BudgetInputs extends Omit<KeptBudgetInputs, "format" | "models" | "units"> {
  readonly units: readonly InputUnit[];
}

/** The inputs in the form in which they are kept: each engine model once, probabilities as plain lists. */
export function keptInputs({ units, ...inputs }: BudgetInputs): KeptBudgetInputs {
  const models = new Map(units.map(({ outlook }) => [outlook.model.id, outlook.model]));
  return {
    format: budgetInputsFormat,
    ...inputs,
    models: [...models.values()],
    units: units.map(
      ({ outlook: { model, pastLimit, fromModel, ...outlook }, sign }): KeptUnit => ({
        ...outlook,
        model: model.id,
        pastLimit: keptChances(pastLimit),
        fromModel: keptChances(fromModel),
        sign,
      }),
    ),
  };
}

/**
 * The inputs as they were: the same seed draws the same budget of them. null: another version of the program kept them in
 * a form that this one does not read.
 */
export function readInputs({ format, models, units, ...inputs }: KeptBudgetInputs): BudgetInputs | null {
  if (format !== budgetInputsFormat) return null;
  const byId = new Map(models.map((model) => [model.id, model]));
  return {
    ...inputs,
    // What a later version asks for beside what was kept has its default.
    workshop: workshopSchema.parse(inputs.workshop),
    units: units.map(({ sign, model: id, pastLimit, fromModel, ...unit }): InputUnit => {
      const model = byId.get(id);
      if (model === undefined) throw new Error(`the engine model ${id} of unit ${unit.unit} was not kept`);
      return {
        outlook: { ...unit, model, pastLimit: readChances(pastLimit), fromModel: readChances(fromModel) },
        sign,
      };
    }),
  };
}

function keptChances(chances: UnitOutlook["pastLimit"]): MonthlyChances | null {
  const from = chances[0]?.date;
  if (from === undefined) return null;
  for (const [month, { date }] of chances.entries()) {
    if (date !== addMonths(from, month)) throw new Error(`chances at ${date} are not month by month from ${from}`);
  }
  return {
    from,
    topEnd: chances.map(({ topEnd }) => topEnd),
    bottomEnd: chances.map(({ bottomEnd }) => bottomEnd),
  };
}

const readChances = (kept: MonthlyChances | null): UnitOutlook["pastLimit"] =>
  (kept?.topEnd ?? []).map((topEnd, month) => ({
    date: addMonths((kept as MonthlyChances).from, month),
    topEnd,
    bottomEnd: kept?.bottomEnd[month] ?? 0,
  }));
