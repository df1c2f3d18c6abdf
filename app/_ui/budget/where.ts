import type { PlanScope } from "../../../lib/schema/kept-plan.ts";
import { planScopes } from "../../../lib/schema/workshop.ts";
import type { YearTold } from "./year-told.ts";

/** Where a year's money goes: groups that open to their units. Minor units. */

export const groupings = ["depot", "class", "model"] as const;
export type Grouping = (typeof groupings)[number];

export interface WhereLine {
  readonly name: string;
  readonly spent: number;
  /** Yet to come. */
  readonly expected: number;
  /** null: not told of single units, nor of all that were tested. */
  readonly p80: number | null;
  /** null: an older budget does not tell them of classes. */
  readonly planned: number | null;
  readonly unplanned: number | null;
  /** Of the year in the frozen budget, what was spent by then with it; null: no budget is frozen, or it has no such year. */
  readonly frozen: number | null;
}

/** What a unit's money is for. */
export interface ForScope {
  readonly scope: PlanScope;
  readonly expected: number;
  /** The plan has it booked: it is in every draw as booked, unless it fails before, however sure its class is. */
  readonly isBooked: boolean;
}

export interface WhereUnit extends WhereLine {
  readonly scopes: readonly ForScope[];
}

export interface WhereGroup extends WhereLine {
  /** The most first. */
  readonly units: readonly WhereUnit[];
}

export interface Where {
  readonly groups: readonly WhereGroup[];
  /** Units too seldom tested, by what their models foresee; they are in the groups as well. */
  readonly untested: WhereGroup;
  /** All others: with the untested the whole. */
  readonly others: WhereLine;
  readonly whole: WhereLine;
}

type Unit = YearTold["drawn"]["units"][number];
/** What a unit has to do with a group. */
interface Part {
  readonly unit: string;
  readonly group: string;
  readonly amount: number;
  readonly unplanned: number | null;
}

export function whereOf(told: YearTold, frozen: YearTold | null, by: Grouping): Where {
  const parts = partsByUnit(partsOf(told, by));
  const spent = partsByUnit(spentParts(told, by));
  const before = frozen === null ? null : partsByUnit([...partsOf(frozen, by), ...spentParts(frozen, by)]);
  const ranges = rangesOf(told, by);
  const scopesOf = scopesByUnit(told);
  const names = new Set([...ranges.keys(), ...parts.keys(), ...spent.keys(), ...(before?.keys() ?? [])]);
  const groups = [...names]
    .toSorted()
    .map((group): WhereGroup => {
      const [ofParts, ofSpent] = [parts.get(group) ?? none, spent.get(group) ?? none];
      const ofBefore = before?.get(group) ?? none;
      const onlyBefore = [...ofBefore].flatMap(([unit, own]) => (sum(own) > 0 ? [unit] : []));
      const units = new Set([...ofParts.keys(), ...ofSpent.keys(), ...onlyBefore]);
      const lines = [...units].map((unit): WhereUnit => {
        const own = ofParts.get(unit) ?? [];
        const [expected, unplanned] = [sum(own), unplannedOf(own)];
        return {
          name: unit,
          spent: sum(ofSpent.get(unit) ?? []),
          expected,
          p80: null,
          planned: unplanned === null ? null : expected - unplanned,
          unplanned,
          frozen: before === null ? null : sum(ofBefore.get(unit) ?? []),
          scopes: scopesOf(unit).filter(({ scope }) => by !== "class" || scope === group),
        };
      });
      return {
        ...wholeOf(group, lines),
        p80: ranges.get(group) ?? null,
        units: lines.toSorted(
          (a, b) =>
            b.expected + b.spent - a.expected - a.spent ||
            (b.frozen ?? 0) - (a.frozen ?? 0) ||
            (a.name < b.name ? -1 : 1),
        ),
      };
    })
    .filter((group) => group.expected > 0 || group.spent > 0 || (group.p80 ?? 0) > 0 || (group.frozen ?? 0) > 0);
  const { drawn } = told;
  const { planned, unplanned } = drawn;
  const whole: WhereLine = {
    name: "Fleet",
    spent: told.spent.amount,
    expected: drawn.expected,
    p80: drawn.p80,
    planned: sumOf(planned),
    unplanned: sumOf(unplanned),
    frozen: frozen?.whole.expected ?? null,
  };
  const untested = untestedOf(told, frozen);
  return { groups, untested, others: { ...less(whole, untested), name: "Tested often enough", p80: null }, whole };
}

/** The units never or too seldom tested of which any money is foreseen. */
function untestedOf(told: YearTold, frozen: YearTold | null): WhereGroup {
  const ofYear = ({ drawn, spent }: YearTold) => {
    const spentOn = new Map(spent.units.map(({ unit, amount }) => [unit, amount]));
    return drawn.units
      .filter(({ untested }) => untested)
      .map(({ unit, expected, unplanned }) => ({ unit, expected, unplanned, spent: spentOn.get(unit) ?? 0 }));
  };
  const before = frozen === null ? null : new Map(ofYear(frozen).map((one) => [one.unit, one.expected + one.spent]));
  const now = new Map(ofYear(told).map((one) => [one.unit, one]));
  const scopesOf = scopesByUnit(told);
  const units = [...new Set([...now.keys(), ...(before?.keys() ?? [])])].map((name): WhereUnit => {
    const { expected, unplanned, spent } = now.get(name) ?? { expected: 0, unplanned: 0, spent: 0 };
    const planned = expected - unplanned;
    const ofFrozen = before && (before.get(name) ?? 0);
    return { name, spent, expected, p80: null, planned, unplanned, frozen: ofFrozen, scopes: scopesOf(name) };
  });
  return { ...wholeOf("Never tested or too few tests", units), p80: told.drawn.untested.p80, units };
}

/** What the money of each unit is for, the plan's bookings first. */
function scopesByUnit({ drawn, booked }: YearTold): (unit: string) => readonly ForScope[] {
  const byUnit = new Map(drawn.units.map(({ unit, byScope }) => [unit, byScope]));
  return (unit) => {
    const own = booked.filter((one) => one.unit === unit);
    return planScopes
      .map((scope) => ({
        scope,
        expected: byUnit.get(unit)?.[scope] ?? 0,
        isBooked: own.some((one) => one.scope === scope),
      }))
      .filter(({ expected }) => expected > 0)
      .toSorted((a, b) => Number(b.isBooked) - Number(a.isBooked));
  };
}

/** What a whole has beside a part of it. */
function less(whole: WhereLine, part: WhereLine): Omit<WhereLine, "name" | "p80"> {
  const rest = (of: "planned" | "unplanned" | "frozen") => {
    const [a, b] = [whole[of], part[of]];
    return a === null || b === null ? null : a - b;
  };
  return {
    spent: whole.spent - part.spent,
    expected: whole.expected - part.expected,
    planned: rest("planned"),
    unplanned: rest("unplanned"),
    frozen: rest("frozen"),
  };
}

const sum = (parts: readonly Pick<Part, "amount">[]): number => parts.reduce((total, { amount }) => total + amount, 0);
const sumOf = (amounts: Readonly<Record<string, number>>): number =>
  Object.values(amounts).reduce((total, amount) => total + amount, 0);

const none: ReadonlyMap<string, never[]> = new Map();

/** By group, then by unit. */
function partsByUnit<P extends Omit<Part, "unplanned">>(
  parts: readonly P[],
): ReadonlyMap<string, ReadonlyMap<string, readonly P[]>> {
  const groups = new Map<string, Map<string, P[]>>();
  for (const part of parts) {
    const units = groups.get(part.group) ?? new Map<string, P[]>();
    groups.set(part.group, units);
    const of = units.get(part.unit) ?? [];
    units.set(part.unit, of);
    of.push(part);
  }
  return groups;
}

/** A line's sums over its units. */
function wholeOf(name: string, lines: readonly WhereLine[]): WhereLine {
  const told = (field: "spent" | "expected") => lines.reduce((total, line) => total + line[field], 0);
  const known = (field: "planned" | "unplanned" | "frozen") =>
    lines.reduce<number | null>((total, { [field]: of }) => (total === null || of === null ? null : total + of), 0);
  return {
    name,
    spent: told("spent"),
    expected: told("expected"),
    p80: null,
    planned: known("planned"),
    unplanned: known("unplanned"),
    frozen: known("frozen"),
  };
}

function unplannedOf(parts: readonly Part[]): number | null {
  let total = 0;
  for (const { unplanned } of parts) {
    if (unplanned === null) return null;
    total += unplanned;
  }
  return total;
}

const groupOf = { depot: (unit: Unit) => unit.depot, model: (unit: Unit) => unit.engineModel } as const;

function partsOf({ drawn }: YearTold, by: Grouping): readonly Part[] {
  if (by !== "class")
    return drawn.units.map((unit) => {
      const { expected: amount, unplanned } = unit;
      return { unit: unit.unit, group: groupOf[by](unit), amount, unplanned };
    });
  return drawn.units.flatMap(({ unit, byScope, unplannedByScope }) =>
    planScopes.flatMap((scope): Part[] =>
      byScope[scope] > 0
        ? [{ unit, group: scope, amount: byScope[scope], unplanned: unplannedByScope?.[scope] ?? null }]
        : [],
    ),
  );
}

const classOfRepair = { "top-end": "top-end", "bottom-end": "bottom-end", complete: "both", "engine-swap": "exchange" };

function spentParts({ spent }: YearTold, by: Grouping): readonly Omit<Part, "unplanned">[] {
  return spent.units.flatMap(({ unit, amounts }) =>
    amounts.map(({ depot, engineModel, scope, amount }) => ({
      unit,
      group:
        by === "depot"
          ? (depot ?? "no depot")
          : by === "model"
            ? engineModel
            : scope === "adjustment"
              ? "adjustment"
              : classOfRepair[scope],
      amount,
    })),
  );
}

function rangesOf({ drawn }: YearTold, by: Grouping): ReadonlyMap<string, number> {
  if (by === "depot") return new Map(drawn.byDepot.map(({ depot, p80 }) => [depot, p80]));
  if (by === "model") return new Map(drawn.byEngineModel.map(({ engineModel, p80 }) => [engineModel, p80]));
  return new Map(drawn.byScope.map(({ scope, p80 }) => [scope, p80]));
}
