import { addMonths } from "../calendar.ts";
import type { UnitOutlook } from "../plan/problem-of.ts";
import { type BridgeCause, bridgeCauses } from "../schema/bridge.ts";
import { actualsOf } from "./actuals.ts";
import { fleetNews, planNews, repairNews, unitNews } from "./bridge-causes.ts";
import type { FiscalYear } from "./fiscal-year.ts";
import type { UnitDraw } from "./fleet-draws.ts";
import { bookedIn, frameOf } from "./frame.ts";
import { type BudgetInputs, type InputUnit, monthsOfRepairs } from "./inputs.ts";
import { budgetUnitOf } from "./problem-of.ts";

/** One unit on its way from an earlier budget to a later one. */
export interface UnitStages {
  readonly unit: string;
  /** As it is drawn after all causes up to and with this one; null: as it was. */
  readonly at: (cause: BridgeCause | null) => UnitDraw;
  /** What is told of it under a cause. */
  readonly words: (cause: BridgeCause) => readonly string[];
}

/** All units of either budget, and those no longer on file whose repairs are, in the order of their names. */
export function unitStages(was: BudgetInputs, now: BudgetInputs, year: FiscalYear): readonly UnitStages[] {
  const [before, after] = [byName(was), byName(now)];
  const names = [...new Set([...before.names, ...after.names])].toSorted();
  return names.map((name) => stagesOf(name, { was, now, year, before: before.of(name), after: after.of(name) }));
}

/** What a budget knows of one unit. */
interface Known {
  readonly unit: InputUnit | undefined;
  readonly repairs: BudgetInputs["repairs"];
  readonly bookings: BudgetInputs["bookings"];
}

function byName({ units, repairs, bookings }: BudgetInputs) {
  const own = new Map(units.map((one) => [one.outlook.unit, one]));
  const grouped = <T extends { readonly unit: string }>(all: readonly T[]) => {
    const by = new Map<string, T[]>();
    for (const one of all) by.set(one.unit, [...(by.get(one.unit) ?? []), one]);
    return by;
  };
  const [made, booked] = [grouped(repairs), grouped(bookings)];
  return {
    names: [...own.keys(), ...made.keys()],
    of: (name: string): Known => ({
      unit: own.get(name),
      repairs: made.get(name) ?? [],
      bookings: booked.get(name) ?? [],
    }),
  };
}

interface Ends {
  readonly was: BudgetInputs;
  readonly now: BudgetInputs;
  readonly year: FiscalYear;
  readonly before: Known;
  readonly after: Known;
}

function stagesOf(unit: string, ends: Ends): UnitStages {
  const { was, now, before, after } = ends;
  const fleet = fleetNews(before.unit, after.unit);
  const plan = planNews(before.bookings, after.bookings);
  const repairs = repairNews(before.repairs, after.repairs, addMonths(now.asOf, -monthsOfRepairs));
  const news =
    before.unit === undefined || after.unit === undefined
      ? { forecast: "disposals" as const, words: [] }
      : unitNews(before.unit, after.unit, { from: was.asOf, to: now.asOf, repairs });
  // Where a repair was recorded the unit's old bookings are done with, and its days begin anew with it.
  const isRepaired = repairs.length > 0 || news.forecast === "repairs";
  const at = (cause: BridgeCause | null) => {
    const has = (of: BridgeCause) => cause !== null && bridgeCauses.indexOf(cause) >= bridgeCauses.indexOf(of);
    return drawOf(unit, ends, {
      frame: has(isRepaired ? "repairs" : "time"),
      forecast: has(news.forecast),
      standing: has("disposals"),
      prices: has("prices"),
      bookings: has(isRepaired ? "repairs" : "plan"),
    });
  };
  const words = (cause: BridgeCause): readonly string[] => {
    if (cause === "disposals") return [...new Set([...(news.forecast === cause ? news.words : []), ...fleet])];
    if (cause === news.forecast) return news.words;
    if (cause === "repairs") return repairs;
    return cause === "plan" && !isRepaired ? plan : [];
  };
  return { unit, at, words };
}

/** What of a unit is already that of the later budget. */
type Taken = Readonly<Record<"frame" | "forecast" | "standing" | "prices" | "bookings", boolean>>;

function drawOf(name: string, { was, now, year, before, after }: Ends, taken: Taken): UnitDraw {
  const own = (taken.standing ? after : before).unit;
  const pick = (of: boolean) => (of ? now : was);
  const { workshop } = pick(taken.prices);
  const frame = frameOf(workshop, { asOf: pick(taken.frame).asOf, pricedAt: pick(taken.prices).asOf });
  const known = taken.bookings ? after : before;
  return {
    unit: name,
    frame,
    of: own === undefined ? null : budgetUnitOf(outlookOf(own, { before, after }, taken), workshop, frame.firstMonday),
    bookings: own === undefined ? [] : bookedIn(known.bookings, frame),
    spent: spentOn(taken.frame ? after : before, {
      from: year.from,
      asOf: pick(taken.frame).asOf,
      currency: workshop.currency,
    }),
  };
}

const spentOn = (
  { repairs }: Known,
  { from, asOf, currency }: { readonly from: string; readonly asOf: string; readonly currency: string },
): number => actualsOf(repairs, { from, to: asOf, currency }).amount;

/** The unit as it stands, with the forecast and the costs of one of the two. */
function outlookOf(
  own: InputUnit,
  { before, after }: Pick<Ends, "before" | "after">,
  { forecast, prices }: Taken,
): UnitOutlook {
  const { pastLimit, fromModel, ageDays } = ((forecast ? after.unit : before.unit) ?? own).outlook;
  const costs = ((prices ? after.unit : before.unit) ?? own).outlook.model;
  // Another engine model has come with the unit, at its own costs.
  const model = costs.id === own.outlook.model.id ? costs : own.outlook.model;
  return { ...own.outlook, pastLimit, fromModel, ageDays, model };
}
