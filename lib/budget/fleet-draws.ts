import { grouped } from "../changes/lists.ts";
import { quantileSorted } from "../statistics/quantile.ts";
import { type FiscalYear, monthsIn } from "./fiscal-year.ts";
import type { Frame } from "./frame.ts";
import { simulateBudget } from "./simulate.ts";
import { expectedCells } from "./summarise.ts";
import type { BookedRepair, BudgetUnit } from "./types.ts";

/** One unit as it is drawn, in a frame that need not be that of the others. */
export interface UnitDraw {
  readonly unit: string;
  readonly frame: Frame;
  /** null: nothing is foreseen of it. */
  readonly of: BudgetUnit | null;
  readonly bookings: readonly BookedRepair[];
  /** Spent on it in the year so far, minor units. */
  readonly spent: number;
}

export interface DrawOptions {
  readonly seed: number;
  readonly draws: number;
}

interface DrawnUnit {
  readonly key: string;
  readonly of: UnitDraw;
  /** Sums over all draws of its months, from the frame's first on. */
  readonly cells: Float64Array;
}

/** A fiscal year of a fleet, drawn; units in the order of their names. */
export interface FleetDraws {
  readonly year: FiscalYear;
  readonly draws: number;
  /** Of each draw the year's whole, with what was spent. */
  readonly totals: Float64Array;
  readonly units: readonly DrawnUnit[];
}

/** A fleet of which nothing is drawn yet. */
export const noDraws = (year: FiscalYear, draws: number): FleetDraws => ({
  year,
  draws,
  totals: new Float64Array(draws),
  units: [],
});

/**
 * The same fleet with other units in it. Only those are drawn that are not as they were: each unit has random numbers of its own, so
 * that the others' draws stay what they are.
 */
export function drawAnew(was: FleetDraws, units: readonly UnitDraw[], options: DrawOptions): FleetDraws {
  const before = new Map(was.units.map((unit) => [unit.of.unit, unit]));
  const keyed = units.map((of) => ({ of, key: keyOf(of) })).toSorted((a, b) => (a.of.unit < b.of.unit ? -1 : 1));
  const others = keyed.filter(({ of, key }) => before.get(of.unit)?.key !== key);
  const kept = new Set(keyed.filter(({ of, key }) => before.get(of.unit)?.key === key).map(({ of }) => of.unit));
  const gone = was.units.filter(({ of }) => !kept.has(of.unit));

  const totals = was.totals.slice();
  const { year } = was;
  drawInto(
    gone.map(({ of }) => of),
    year,
    { ...options, into: totals, sign: -1 },
  );
  const cells = drawInto(
    others.map(({ of }) => of),
    year,
    { ...options, into: totals, sign: 1 },
  );
  const drawn = keyed.map(({ of, key }): DrawnUnit => {
    const as = kept.has(of.unit) ? before.get(of.unit)?.cells : cells.get(of.unit);
    return { key, of, cells: as ?? new Float64Array(0) };
  });
  return { ...was, totals, units: drawn };
}

/** Adds (or takes off) what the units come to in each draw; gives the cells of each. */
function drawInto(
  units: readonly UnitDraw[],
  year: FiscalYear,
  { seed, draws, into, sign }: DrawOptions & { readonly into: Float64Array; readonly sign: 1 | -1 },
): ReadonlyMap<string, Float64Array> {
  const cells = new Map<string, Float64Array>();
  const spent = units.reduce((sum, one) => sum + one.spent, 0);
  for (let draw = 0; draw < draws; draw++) into[draw] = (into[draw] as number) + sign * spent;
  for (const [, group] of grouped(units, ({ frame }) => JSON.stringify(frame))) {
    const { frame } = group[0] as UnitDraw;
    const problem = {
      ...frame,
      units: group.flatMap(({ of }) => of ?? []),
      bookings: group.flatMap(({ bookings }) => bookings),
    };
    const drawn = simulateBudget(problem, { seed, draws });
    const { from, to } = monthsIn(year, frame);
    for (let draw = 0; draw < draws; draw++) {
      for (let month = from; month < to; month++)
        into[draw] = (into[draw] as number) + sign * (drawn.totals[draw * frame.months + month] as number);
    }
    const ofUnit = problem.units.length === 0 ? 0 : drawn.sums.cells.length / problem.units.length;
    for (const [place, { unit }] of problem.units.entries())
      cells.set(unit, drawn.sums.cells.slice(place * ofUnit, (place + 1) * ofUnit));
  }
  return cells;
}

/** All that a unit's draws hang on, as text. */
const keyOf = ({ frame, of, bookings, spent }: UnitDraw): string =>
  JSON.stringify([frame, of === null ? null : { ...of, needs: of.needs.map(plain) }, bookings, spent]);

const plain = (need: BudgetUnit["needs"][number]) => ({ ...need, crossed: Array.from(need.crossed) });

/** The year's quantile, in minor units. */
export const yearQuantile = ({ totals }: FleetDraws, p: number): number =>
  Math.round(quantileSorted(totals.toSorted(), p));

/**
 * The year's expected money by unit with what was spent, shared out as a budget's document shares it out: in whole minor units that
 * add up to the rounded whole.
 */
export function yearExpected({ year, draws, units }: FleetDraws): ReadonlyMap<string, number> {
  const all = new Float64Array(units.reduce((length, { cells }) => length + cells.length, 0));
  let at = 0;
  for (const { cells } of units) {
    all.set(cells, at);
    at += cells.length;
  }
  const shared = expectedCells({ draws, sums: { units: units.length, months: 0, cells: all } }).cells;
  at = 0;
  return new Map(
    units.map(({ of, cells }) => {
      const aMonth = cells.length / of.frame.months;
      const { from, to } = monthsIn(year, of.frame);
      let sum = of.spent;
      for (let cell = at + from * aMonth; cell < at + to * aMonth; cell++) sum += shared[cell] as number;
      at += cells.length;
      return [of.unit, sum];
    }),
  );
}
