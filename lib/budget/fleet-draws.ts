import { grouped } from "../changes/lists.ts";
import { quantileSorted } from "../statistics/quantile.ts";
import { type FiscalYear, monthsIn } from "./fiscal-year.ts";
import type { Frame } from "./frame.ts";
import { addRepair, drawRepairs } from "./simulate.ts";
import { expectedCells } from "./summarise.ts";
import { type BookedRepair, type BudgetUnit, noCells } from "./types.ts";

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
  readonly comesTo: YearByDraw;
}

/** What is drawn of one unit in the year, for the draws that have any of it: most have none. */
interface YearByDraw {
  /** Ascending. */
  readonly draws: Uint32Array;
  readonly amounts: Float64Array;
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
 * that the others' draws stay what they are. What a unit came to is kept, and taken off again where it is drawn anew: amounts are whole
 * numbers, so nothing is lost by that.
 */
export function drawAnew(was: FleetDraws, units: readonly UnitDraw[], options: DrawOptions): FleetDraws {
  const before = new Map(was.units.map((unit) => [unit.of.unit, unit]));
  const keyed = units.map((of) => ({ of, key: keyOf(of) })).toSorted((a, b) => (a.of.unit < b.of.unit ? -1 : 1));
  const asBefore = ({ of, key }: (typeof keyed)[number]): DrawnUnit | undefined => {
    const known = before.get(of.unit);
    return known?.key === key ? known : undefined;
  };
  const totals = was.totals.slice();
  const kept = new Set(keyed.map(asBefore));
  for (const unit of was.units) if (!kept.has(unit)) addTo(totals, unit, -1);
  const anew = drawn(
    keyed.filter((one) => asBefore(one) === undefined),
    was.year,
    options,
  );
  for (const unit of anew.values()) addTo(totals, unit, 1);
  const all = keyed.flatMap((one) => asBefore(one) ?? anew.get(one.of.unit) ?? []);
  return { ...was, totals, units: all };
}

/** Adds to the whole of each draw what a unit comes to, or takes it off. */
function addTo(totals: Float64Array, { of, comesTo: { draws, amounts } }: DrawnUnit, sign: 1 | -1): void {
  if (of.spent !== 0) {
    for (let draw = 0; draw < totals.length; draw++) totals[draw] = (totals[draw] as number) + sign * of.spent;
  }
  for (let i = 0; i < draws.length; i++) {
    const draw = draws[i] as number;
    totals[draw] = (totals[draw] as number) + sign * (amounts[i] as number);
  }
}

/** The units, drawn; by name. */
function drawn(
  units: readonly { readonly of: UnitDraw; readonly key: string }[],
  year: FiscalYear,
  { seed, draws }: DrawOptions,
): ReadonlyMap<string, DrawnUnit> {
  const none: YearByDraw = { draws: new Uint32Array(0), amounts: new Float64Array(0) };
  const byName = new Map<string, DrawnUnit>();
  for (const one of units) byName.set(one.of.unit, { ...one, cells: new Float64Array(0), comesTo: none });
  for (const [, group] of grouped(units, ({ of }) => JSON.stringify(of.frame))) {
    const { frame } = (group[0] as (typeof group)[number]).of;
    const foreseen = group.filter(({ of }) => of.of !== null);
    const problem = {
      ...frame,
      units: foreseen.flatMap(({ of }) => of.of ?? []),
      bookings: group.flatMap(({ of }) => of.bookings),
    };
    const { from, to } = monthsIn(year, frame);
    const gathered = gatherer(draws);
    const comesTo: YearByDraw[] = [];
    const end = (units: number) => {
      while (comesTo.length < units) comesTo.push(gathered.taken());
    };
    const sums = noCells({ units: foreseen.length, months: frame.months });
    drawRepairs(problem, { seed, draws }, (unit, draw, month, repair) => {
      end(unit);
      const amount = addRepair(sums, { unit, month }, repair);
      if (month >= from && month < to) gathered.add(draw, amount);
    });
    end(foreseen.length);
    const ofUnit = foreseen.length === 0 ? 0 : sums.cells.length / foreseen.length;
    for (const [place, one] of foreseen.entries()) {
      const cells = sums.cells.slice(place * ofUnit, (place + 1) * ofUnit);
      byName.set(one.of.unit, { ...one, cells, comesTo: comesTo[place] ?? none });
    }
  }
  return byName;
}

/** Gathers one unit's amounts by draw, which come in ascending order. */
function gatherer(draws: number) {
  const [places, amounts] = [new Uint32Array(draws), new Float64Array(draws)];
  let count = 0;
  return {
    add: (draw: number, amount: number): void => {
      if (count > 0 && places[count - 1] === draw) amounts[count - 1] = (amounts[count - 1] as number) + amount;
      else {
        places[count] = draw;
        amounts[count] = amount;
        count++;
      }
    },
    /** What was gathered since it was last taken. */
    taken: (): YearByDraw => {
      const all = { draws: places.slice(0, count), amounts: amounts.slice(0, count) };
      count = 0;
      return all;
    },
  };
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
