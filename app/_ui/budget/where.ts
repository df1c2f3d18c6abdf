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
  /** null: not told of single units, nor after what the money is spent on. */
  readonly p80: number | null;
  readonly planned: number | null;
  readonly unplanned: number | null;
  /** Of the year in the frozen budget, what was spent by then with it; null: no budget is frozen, or it has no such year. */
  readonly frozen: number | null;
}

export interface WhereGroup extends WhereLine {
  /** The most first. */
  readonly units: readonly WhereLine[];
}

export interface Where {
  readonly groups: readonly WhereGroup[];
  /** Units too seldom tested, by what their models foresee; they are in the groups as well. */
  readonly untested: WhereLine;
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
  const parts = partsOf(told, by);
  const before = frozen === null ? null : partsOf(frozen, by);
  const [spent, spentBefore] = [spentParts(told, by), frozen === null ? [] : spentParts(frozen, by)];
  const ranges = rangesOf(told, by);
  const frozenOf = (is: (part: Pick<Part, "unit" | "group">) => boolean) =>
    before === null ? null : sum(before.filter(is)) + sum(spentBefore.filter(is));
  const groups = [
    ...new Set([...ranges.keys(), ...parts.map(({ group }) => group), ...spent.map(({ group }) => group)]),
  ]
    .toSorted()
    .map((group): WhereGroup => {
      const own = parts.filter((part) => part.group === group);
      const expected = sum(own);
      const unplanned = unplannedOf(own);
      const ofSpent = spent.filter((part) => part.group === group);
      const units = [...new Set([...own, ...ofSpent].map(({ unit }) => unit))];
      return {
        name: group,
        spent: sum(ofSpent),
        expected,
        p80: ranges.get(group) ?? null,
        planned: unplanned === null ? null : expected - unplanned,
        unplanned,
        frozen: frozenOf((part) => part.group === group),
        units: units
          .map((unit): WhereLine => {
            const mine = own.filter((part) => part.unit === unit);
            const risk = unplannedOf(mine);
            return {
              name: unit,
              spent: sum(ofSpent.filter((part) => part.unit === unit)),
              expected: sum(mine),
              p80: null,
              planned: risk === null ? null : sum(mine) - risk,
              unplanned: risk,
              frozen: frozenOf((part) => part.group === group && part.unit === unit),
            };
          })
          .toSorted((a, b) => b.expected + b.spent - a.expected - a.spent || (a.name < b.name ? -1 : 1)),
      };
    })
    .filter(({ expected, spent: done, p80 }) => expected > 0 || done > 0 || (p80 ?? 0) > 0);
  const { drawn } = told;
  const { planned, unplanned } = drawn;
  return {
    groups,
    untested: {
      name: "Too few tests",
      spent: 0,
      expected: drawn.untested.expected,
      p80: drawn.untested.p80,
      planned: null,
      unplanned: null,
      frozen: frozen?.drawn.untested.expected ?? null,
    },
    whole: {
      name: "Fleet",
      spent: told.spent.amount,
      expected: drawn.expected,
      p80: drawn.p80,
      planned: sumOf(planned),
      unplanned: sumOf(unplanned),
      frozen: frozen?.whole.expected ?? null,
    },
  };
}

const sum = (parts: readonly Pick<Part, "amount">[]): number => parts.reduce((total, { amount }) => total + amount, 0);
const sumOf = (amounts: Readonly<Record<string, number>>): number =>
  Object.values(amounts).reduce((total, amount) => total + amount, 0);

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
  return drawn.units.flatMap(({ unit, byScope }) =>
    planScopes.flatMap((scope): Part[] =>
      byScope[scope] > 0 ? [{ unit, group: scope, amount: byScope[scope], unplanned: null }] : [],
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
