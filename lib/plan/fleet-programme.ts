import type {
  Overload,
  Pin,
  PlanScope,
  RepairClass,
  Resource,
  WeekCost,
  WeekUse,
  WhyImpossible,
  Work,
} from "../schema/kept-plan.ts";
import { earliestWeek } from "./order-by.ts";
import { type Programme, type ProgrammeOption, slack } from "./programme.ts";
import type { Need, PlanProblem, PlanUnit } from "./types.ts";
import { totalOf } from "./types.ts";
import { leavingBothOf, leavingOf, type Placed, placed, type UnitCosts, unitCosts } from "./unit-costs.ts";

/** An option of the programme in words of the plan. */
export interface PlanOption {
  readonly unit: number;
  readonly work: Work | null;
  /** null: after the plan's last week. */
  readonly week: number | null;
  readonly cost: WeekCost;
  readonly span: Placed["span"];
}

export interface FleetProgramme {
  readonly programme: Programme;
  /** By the places of `programme.options`. */
  readonly options: readonly PlanOption[];
  /** Places of `options` of each unit, by the places of the units. */
  readonly byUnit: readonly (readonly number[])[];
  /** Ways that pay but take more than there ever is in their weeks, however little else is booked; they are no options. */
  readonly tooLarge: readonly { readonly option: PlanOption; readonly covers: readonly number[] }[];
  /** For each need of the programme its place in its unit's needs. */
  readonly placeOfNeed: readonly number[];
  readonly resources: readonly Resource[];
  readonly costs: readonly UnitCosts[];
  /** Bookings that stay where they are; their needs are in no option. */
  readonly pinned: readonly PlanOption[];
  readonly overloads: readonly Overload[];
  /** Pins that can't be kept at all, and why. */
  readonly impossible: readonly { readonly pin: Pin; readonly why: WhyImpossible }[];
}

/**
 * The plan as a programme: for each unit and each class of repair that it may come to need, one option for every week in
 * which a work that cures it may begin, and one for leaving it until after the plan. Weeks that cost more than leaving it are
 * left out: leaving takes no room, so no best plan holds them.
 */
export function fleetProgramme(problem: PlanProblem): FleetProgramme {
  const rows = new Rows(problem);
  const costs = problem.units.map((unit) => unitCosts(unit, problem));
  const { pinned, impossible } = placePins(problem, costs);
  const overloads = rows.takeAway(pinned, problem.units);

  const options: PlanOption[] = [];
  const byUnit = costs.map((): number[] => []);
  const forProgramme: ProgrammeOption[] = [];
  const placeOfNeed: number[] = [];
  const tooLarge: FleetProgramme["tooLarge"][number][] = [];
  for (const [u, of] of costs.entries()) {
    const isDone = new Set<RepairClass>(pinned.flatMap((pin) => (pin.unit === u ? (pin.work?.cures ?? []) : [])));
    const isDropped = new Set(problem.dropped.flatMap((one) => (one.unit === of.unit.unit ? [one.of] : [])));
    const open = of.unit.needs.flatMap((need, place) => (isDone.has(need.of) ? [] : [{ need, place }]));
    const numbers = new Map(open.map(({ place }) => [place, placeOfNeed.push(place) - 1]));
    const add = (option: PlanOption, places: readonly number[]) => {
      byUnit[u]?.push(options.push(option) - 1);
      forProgramme.push({
        cost: totalOf(option.cost),
        covers: places.map((place) => numbers.get(place) as number),
        uses: rows.usedBy(option, of.unit),
      });
    };
    const later = laterOptions(of, u, open, problem);
    for (const { option, places } of later) add(option, places);
    const leave = new Map(
      later.flatMap(({ option, places }) => (places.length === 1 ? [[places[0], totalOf(option.cost)]] : [])),
    );
    const mine = pinned.filter((pin) => pin.unit === u);
    const ways = waysOf(of, u, open, { problem, isDropped, leave }).filter(
      ({ option }) => !mine.some((pin) => isAtOnce(pin.span, option.span)),
    );
    rows.keepApart(of.unit, ways);
    for (const { option, places } of ways) {
      if (rows.canHold(option, of.unit)) add(option, places);
      else tooLarge.push({ option, covers: places.map((place) => numbers.get(place) as number) });
    }
  }
  return {
    programme: { needs: placeOfNeed.length, options: forProgramme, capacity: rows.capacity },
    options,
    byUnit,
    tooLarge,
    placeOfNeed,
    resources: rows.resources,
    costs,
    pinned,
    overloads,
    impossible,
  };
}

interface WayAtPlaces {
  readonly option: PlanOption;
  /** Of the unit's needs, those that it covers. */
  readonly places: readonly number[];
}

/** Every work of a unit in every week in which it costs less than leaving what it cures. */
function waysOf(
  of: UnitCosts,
  unit: number,
  open: readonly { readonly need: Need; readonly place: number }[],
  asked: {
    readonly problem: PlanProblem;
    readonly isDropped: ReadonlySet<RepairClass>;
    /** What leaving each need costs, by its place. */
    readonly leave: ReadonlyMap<number | undefined, number>;
  },
): readonly WayAtPlaces[] {
  const { problem, isDropped, leave } = asked;
  const ways: WayAtPlaces[] = [];
  for (const work of of.unit.works) {
    const cured = open.filter(({ need }) => work.cures.includes(need.of));
    // A spare engine may go in for one class alone; opening it for both pays only where both are open.
    if (cured.length < (work.spareOf === null ? work.cures.length : 1)) continue;
    if (cured.some(({ need }) => isDropped.has(need.of))) continue;
    const places = cured.map(({ place }) => place);
    const most = places.reduce((sum, place) => sum + (leave.get(place) as number), 0);
    const end = Math.min(problem.weeks, of.unit.disposalWeek ?? problem.weeks);
    for (let week = earliestWeek(work); week < end; week++) {
      const at = placed(of, work, week, problem);
      if (at !== null && totalOf(at.cost) < most) ways.push({ option: { unit, work, week, ...at }, places });
    }
  }
  return ways;
}

const isIn = ({ bayDays, daysOff }: WeekUse): boolean => bayDays > 0 || daysOff > 0;

/** Whether two works of one unit have a week in common in which it is in for both. */
const isAtOnce = (a: Placed["span"], b: Placed["span"]): boolean =>
  a.some((one) => isIn(one) && b.some((other) => isIn(other) && other.week === one.week));

/** Leaving each open need until after the plan, and both at once where one work may then cure them. */
function laterOptions(
  of: UnitCosts,
  unit: number,
  open: readonly { readonly need: Need; readonly place: number }[],
  problem: PlanProblem,
): readonly { readonly option: PlanOption; readonly places: readonly number[] }[] {
  const left = { unit, work: null, week: null, span: [] };
  const single = open.map(({ place }) => ({
    option: { ...left, cost: leavingOf(of, place, problem) },
    places: [place],
  }));
  const both = open.length < 2 ? undefined : of.unit.works.find(({ scope }) => scope === "both");
  if (both === undefined) return single;
  const places = open.map(({ place }) => place);
  return [...single, { option: { ...left, cost: leavingBothOf(of, both, problem) }, places }];
}

/**
 * What the fleet is expected to cost with nothing booked, pins neither: all that any unit may need is left until after the plan, both
 * classes at once where that costs less. What nobody chose moves it: plans of the same day and facts have the same one. Minor units.
 */
export function costOfNothing({ costs }: Pick<FleetProgramme, "costs">, problem: PlanProblem): number {
  const ofUnit = (of: UnitCosts, unit: number): number => {
    const open = of.unit.needs.map((need, place) => ({ need, place }));
    const later = laterOptions(of, unit, open, problem).map(({ option, places }) => ({
      places,
      cost: totalOf(option.cost),
    }));
    const apart = later.filter(({ places }) => places.length === 1).reduce((sum, { cost }) => sum + cost, 0);
    return Math.min(apart, ...later.filter(({ places }) => places.length > 1).map(({ cost }) => cost));
  };
  return costs.reduce((sum, of, unit) => sum + ofUnit(of, unit), 0);
}

function placePins(problem: PlanProblem, costs: readonly UnitCosts[]) {
  const pinned: PlanOption[] = [];
  const impossible: { pin: Pin; why: WhyImpossible }[] = [];
  const optionOf = (pin: Pin): PlanOption | WhyImpossible => {
    const unit = costs.findIndex((of) => of.unit.unit === pin.unit);
    const of = costs[unit];
    if (of === undefined) return "unit";
    const work = workOfScope(of.unit, pin.scope);
    if (work === undefined) return "work";
    if (pin.week >= (of.unit.disposalWeek ?? Number.POSITIVE_INFINITY)) return "sold";
    const isCured = (one: RepairClass) =>
      pinned.some((other) => other.unit === unit && other.work?.cures.includes(one));
    if (work.cures.some(isCured)) return "twice";
    const at = placed(of, work, pin.week, problem);
    return at === null ? "closed" : { unit, work, week: pin.week, ...at };
  };
  for (const pin of problem.pins.toSorted((a, b) => a.week - b.week)) {
    const option = optionOf(pin);
    if (typeof option === "string") impossible.push({ pin, why: option });
    else pinned.push(option);
  }
  return { pinned, impossible };
}

const workOfScope = ({ works }: PlanUnit, scope: PlanScope): Work | undefined =>
  works.find((work) => work.scope === scope);

function keyOf(resource: Resource): string {
  const of =
    resource.kind === "spares"
      ? resource.engineModel
      : resource.kind === "out-together"
        ? resource.group
        : resource.kind === "unit"
          ? resource.unit
          : resource.depot;
  return `${resource.kind} ${resource.week} ${of}`;
}

/** Weeks in which a unit is pinned to be in for more than one work. */
function pinnedAtOnce(pinned: readonly PlanOption[], units: readonly PlanUnit[]): Overload[] {
  const works = new Map<string, { resource: Resource; used: number }>();
  for (const pin of pinned) {
    for (const { week } of pin.span.filter(isIn)) {
      const resource = { kind: "unit", unit: (units[pin.unit] as PlanUnit).unit, week } as const;
      const used = (works.get(keyOf(resource))?.used ?? 0) + 1;
      works.set(keyOf(resource), { resource, used });
    }
  }
  return [...works.values()].flatMap(({ resource, used }) => (used > 1 ? [{ resource, capacity: 1, used }] : []));
}

/** What there is of everything, week by week. */
class Rows {
  readonly resources: Resource[] = [];
  readonly capacity: number[] = [];
  readonly #rowOf = new Map<string, number>();
  readonly #turnaround: Readonly<Record<string, { readonly turnaroundWeeks: number }>>;
  readonly #weeks: number;

  constructor({ depots, mostOut, spares, weeks }: PlanProblem) {
    this.#turnaround = spares;
    this.#weeks = Math.max(weeks, ...depots.map((of) => of.weeks.length));
    for (const of of depots) {
      for (const [week, { bayDays, hours, builderHours }] of of.weeks.entries()) {
        this.#add({ kind: "bay-days", depot: of.depot, week }, bayDays);
        this.#add({ kind: "hours", depot: of.depot, week }, hours);
        this.#add({ kind: "builder-hours", depot: of.depot, week }, builderHours);
      }
    }
    for (let week = 0; week < this.#weeks; week++) {
      for (const [group, most] of Object.entries(mostOut)) this.#add({ kind: "out-together", group, week }, most);
      for (const [engineModel, { count, more }] of Object.entries(spares)) {
        const come = more !== undefined && more.fromWeek <= week ? more.count : 0;
        this.#add({ kind: "spares", engineModel, week }, count + come);
      }
    }
  }

  /** A unit is in for one work at a time: a row for each week in which works for different needs of it might lie. */
  keepApart({ unit }: PlanUnit, ways: readonly WayAtPlaces[]): void {
    const needs = new Map<number, Set<number>>();
    for (const { option, places } of ways) {
      // What covers more than one need leaves none that another work might cover beside it.
      const [only, other] = places;
      if (only === undefined || other !== undefined) continue;
      for (const { week } of option.span.filter(isIn)) needs.set(week, (needs.get(week) ?? new Set()).add(only));
    }
    for (const [week, of] of needs) if (of.size > 1) this.#add({ kind: "unit", unit, week }, 1);
  }

  #add(resource: Resource, amount: number): void {
    this.#rowOf.set(keyOf(resource), this.resources.push(resource) - 1);
    this.capacity.push(amount);
  }

  /** What an option takes of each row; a row that nobody limits is left out. */
  usedBy({ work, week: start, span }: PlanOption, unit: PlanUnit): ProgrammeOption["uses"] {
    if (work === null || start === null) return [];
    const uses = new Map<number, number>();
    const use = (resource: Resource, amount: number) => {
      const row = this.#rowOf.get(keyOf(resource));
      if (row !== undefined && amount > 0) uses.set(row, (uses.get(row) ?? 0) + amount);
    };
    const { depot } = unit;
    for (const { week, bayDays, hours, daysOff } of span) {
      use({ kind: "bay-days", depot, week }, bayDays);
      use({ kind: "hours", depot, week }, hours);
      if (work.needsBuilder) use({ kind: "builder-hours", depot, week }, hours);
      if (bayDays > 0 || daysOff > 0) use({ kind: "unit", unit: unit.unit, week }, 1);
      if (daysOff > 0) for (const group of unit.groups) use({ kind: "out-together", group, week }, 1);
    }
    if (work.spareOf !== null) {
      // The spare is gone until the engine that came out is ready to go in again.
      const back = start + (this.#turnaround[work.spareOf]?.turnaroundWeeks ?? this.#weeks);
      for (let week = start; week < Math.min(back, this.#weeks); week++)
        use({ kind: "spares", engineModel: work.spareOf, week }, 1);
    }
    return [...uses].map(([row, amount]) => ({ row, amount }));
  }

  canHold(option: PlanOption, unit: PlanUnit): boolean {
    if (option.work?.spareOf != null && this.#turnaround[option.work.spareOf] === undefined) return false;
    return this.usedBy(option, unit).every(({ row, amount }) => amount <= (this.capacity[row] as number) + slack);
  }

  /** Takes what stays where it is from what there is; tells where that is more than there is. */
  takeAway(pinned: readonly PlanOption[], units: readonly PlanUnit[]): Overload[] {
    const used = new Map<number, number>();
    for (const pin of pinned) {
      for (const { row, amount } of this.usedBy(pin, units[pin.unit] as PlanUnit))
        used.set(row, (used.get(row) ?? 0) + amount);
    }
    const overloads = pinnedAtOnce(pinned, units);
    for (const [row, amount] of [...used].toSorted(([a], [b]) => a - b)) {
      const capacity = this.capacity[row] as number;
      if (amount > capacity + slack)
        overloads.push({ resource: this.resources[row] as Resource, capacity, used: amount });
      this.capacity[row] = Math.max(0, capacity - amount);
    }
    return overloads;
  }
}
