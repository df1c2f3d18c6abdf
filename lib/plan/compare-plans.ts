import type { KeptBooking, KeptPlan, RepairClass, WhyLeftOut } from "../schema/kept-plan.ts";
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

/** Two sums of expected cost, in minor units. */
export interface TwoCosts {
  readonly before: number;
  readonly after: number;
}

/** What of the units' costs can be set against each other, and what one plan alone counts. */
export interface ComparedUnits {
  /** How many units both plans reckon with, and what these cost. */
  readonly both: TwoCosts & { readonly units: number };
  readonly alone: TwoCosts;
  /** Units that only the earlier plan, or only the later one, reckons with; the other left them out, for that reason where it told it. */
  readonly onlyBefore: readonly UnitAlone[];
  readonly onlyAfter: readonly UnitAlone[];
}

interface UnitAlone {
  readonly unit: string;
  /** null: the other plan knew of no such unit. */
  readonly why: WhyLeftOut | null;
}

type Counted = Pick<KeptPlan, "leftOut" | "costByUnit">;

/**
 * The units that both plans reckon with apart from those in one alone: a unit that came in or lost its costs moves the sum of the
 * fleet by all that it costs, and no plan is dearer or cheaper for that.
 */
export function compareUnits(before: Counted, after: Counted): ComparedUnits {
  const [was, is] = [before.costByUnit, after.costByUnit];
  const whyIn = ({ leftOut }: Counted, name: string) => leftOut.find(({ unit }) => unit === name)?.why ?? null;
  const sum = (costs: Readonly<Record<string, number>>, units: readonly string[]) =>
    units.reduce((whole, unit) => whole + (costs[unit] ?? 0), 0);
  const both = Object.keys(was).filter((unit) => Object.hasOwn(is, unit));
  const onlyWas = Object.keys(was).filter((unit) => !Object.hasOwn(is, unit));
  const onlyIs = Object.keys(is).filter((unit) => !Object.hasOwn(was, unit));
  return {
    both: { units: both.length, before: sum(was, both), after: sum(is, both) },
    alone: { before: sum(was, onlyWas), after: sum(is, onlyIs) },
    onlyBefore: onlyWas.map((unit) => ({ unit, why: whyIn(after, unit) })),
    onlyAfter: onlyIs.map((unit) => ({ unit, why: whyIn(before, unit) })),
  };
}

const shares = (a: readonly RepairClass[], b: readonly RepairClass[]): boolean => a.some((of) => b.includes(of));

/** Another week, or another scope. */
export const differs = ({ before, after }: Pick<ComparedBooking, "before" | "after">): boolean =>
  before?.start !== after?.start || before?.scope !== after?.scope;
