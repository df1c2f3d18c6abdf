import type { KeptBooking, KeptPlan, RepairClass } from "../schema/kept-plan.ts";
import { cures } from "./cures.ts";

/** One repair in two plans; null: the plan has it not. */
export interface ComparedBooking {
  readonly unit: string;
  readonly depot: string;
  readonly before: KeptBooking | null;
  readonly after: KeptBooking | null;
}

export interface ComparedPlans {
  /** Those that differ first, each by the week in which the repair comes first, then unit. */
  readonly bookings: readonly ComparedBooking[];
  readonly moved: number;
  readonly added: number;
  readonly gone: number;
}

/** Two plans, repair by repair: bookings of a unit that cure something in common are the same repair. */
export function comparePlans(before: Pick<KeptPlan, "bookings">, after: Pick<KeptPlan, "bookings">): ComparedPlans {
  const rest = [...after.bookings];
  const bookings = before.bookings.map((was): ComparedBooking => {
    const at = rest.findIndex((is) => is.unit === was.unit && shares(cures(is.scope), cures(was.scope)));
    const [is = null] = at < 0 ? [] : rest.splice(at, 1);
    return { unit: was.unit, depot: was.depot, before: was, after: is };
  });
  bookings.push(...rest.map((is): ComparedBooking => ({ unit: is.unit, depot: is.depot, before: null, after: is })));
  const firstOf = ({ before: a, after: b }: ComparedBooking) =>
    [a?.start, b?.start].filter((start) => start !== undefined).toSorted()[0] ?? "";
  bookings.sort(
    (a, b) =>
      Number(differs(b)) - Number(differs(a)) ||
      (firstOf(a) < firstOf(b) ? -1 : firstOf(a) > firstOf(b) ? 1 : a.unit < b.unit ? -1 : 1),
  );
  return {
    bookings,
    moved: bookings.filter((one) => one.before !== null && one.after !== null && differs(one)).length,
    added: bookings.filter((one) => one.before === null).length,
    gone: bookings.filter((one) => one.after === null).length,
  };
}

const shares = (a: readonly RepairClass[], b: readonly RepairClass[]): boolean => a.some((of) => b.includes(of));

/** Another week, or another scope. */
export const differs = ({ before, after }: Pick<ComparedBooking, "before" | "after">): boolean =>
  before?.start !== after?.start || before?.scope !== after?.scope;
