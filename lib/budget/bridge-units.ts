import { addMonths } from "../calendar.ts";
import type { UnitOutlook } from "../plan/problem-of.ts";
import { type BridgeCause, bridgeCauses } from "../schema/bridge.ts";
import type { Workshop } from "../schema/workshop.ts";
import { actualsOf } from "./actuals.ts";
import { fleetNews, planNews, repairNews, type UnitNews, unitNews } from "./bridge-causes.ts";
import { causesPutIn, type MixedForecasts, type StageForecast } from "./bridge-mixtures.ts";
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

/**
 * All units of either budget, and those no longer on file whose repairs are, in the order of their names.
 * @param mixed forecasts in between, of units that several causes moved; absent: all of a unit's is put down to the first of its causes
 */
export function unitStages(
  was: BudgetInputs,
  now: BudgetInputs,
  { year, mixed }: { readonly year: FiscalYear; readonly mixed: MixedForecasts | undefined },
): readonly UnitStages[] {
  const [before, after] = [byName(was), byName(now)];
  const names = [...new Set([...before.names, ...after.names])].toSorted();
  return names.map((name) =>
    stagesOf(name, { was, now, year, mixed: mixed?.get(name), before: before.of(name), after: after.of(name) }),
  );
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
  readonly mixed: ReadonlyMap<BridgeCause, StageForecast> | undefined;
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
      ? { forecast: "disposals" as const, words: [], causes: [] }
      : unitNews(before.unit, after.unit, { from: was.asOf, to: now.asOf, repairs });
  // Where a repair was recorded the unit's old bookings are done with, and its days begin anew with it.
  const isRepaired = repairs.length > 0 || news.forecast === "repairs";
  const steps = forecastSteps(news, ends);
  const at = (cause: BridgeCause | null) => {
    const has = (of: BridgeCause) => cause !== null && bridgeCauses.indexOf(cause) >= bridgeCauses.indexOf(of);
    return drawOf(unit, ends, {
      frame: has(isRepaired ? "repairs" : "time"),
      forecast: steps.findLast((step) => has(step.cause))?.forecast ?? "before",
      standing: has("disposals"),
      prices: has("prices"),
      bookings: has(isRepaired ? "repairs" : "plan"),
    });
  };
  const words = (cause: BridgeCause): readonly string[] => {
    const own = steps.find((step) => step.cause === cause)?.words ?? [];
    if (cause === "disposals") return [...new Set([...own, ...fleet])];
    if (own.length > 0) return own;
    if (cause === "repairs") return repairs;
    return cause === "plan" && !isRepaired ? plan : [];
  };
  return { unit, at, words };
}

/** A forecast of a unit: of the earlier budget, of the later one, or one in between. */
type Forecast = StageForecast | "before" | "after";

/** Where a unit's forecast becomes another one. */
interface ForecastStep {
  readonly cause: BridgeCause;
  readonly forecast: Forecast;
  readonly words: readonly string[];
}

/**
 * The forecasts of a unit in their order, the last of them that of the later budget. What several causes did together that could not be
 * told apart by assessing it in between stands at `unexplained`.
 */
function forecastSteps(news: UnitNews, { mixed }: Pick<Ends, "mixed">): readonly ForecastStep[] {
  const causes = causesPutIn(news);
  if (mixed === undefined || causes.length < 2) return [{ cause: news.forecast, forecast: "after", words: news.words }];
  if (mixed.size === 0) return [{ cause: "unexplained", forecast: "after", words: news.words }];
  const last = causes.at(-1) as BridgeCause;
  const steps: ForecastStep[] = [];
  // A cause that could not be put in by itself comes with the next one, and so do its words.
  let words: readonly string[] = [];
  for (const cause of bridgeCauses) {
    words = [...words, ...wordsPutIn(news, cause)];
    const forecast = cause === last ? "after" : mixed.get(cause);
    if (forecast === undefined) continue;
    steps.push({ cause, forecast, words });
    words = [];
    if (cause === last) break;
  }
  return steps;
}

/** What is told of a cause as it is put in: where the unit was repaired, what sister engines show comes with the repair. */
function wordsPutIn({ causes }: UnitNews, cause: BridgeCause): readonly string[] {
  const wordsOf = (of: BridgeCause) => causes.find((one) => one.cause === of)?.words ?? [];
  if (!causes.some((one) => one.cause === "repairs")) return wordsOf(cause);
  return cause === "model" ? [] : cause === "repairs" ? [...wordsOf(cause), ...wordsOf("model")] : wordsOf(cause);
}

/** What of a unit is already that of the later budget, and which forecast it has. */
type Taken = Readonly<Record<"frame" | "standing" | "prices" | "bookings", boolean>> & { readonly forecast: Forecast };

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
      workshop,
    }),
  };
}

const spentOn = (
  { repairs }: Known,
  { from, asOf, workshop }: { readonly from: string; readonly asOf: string; readonly workshop: Workshop },
): number => actualsOf(repairs, { from, to: asOf, workshop }).amount;

/** The unit as it stands, with the forecast and the costs of one of the two. */
function outlookOf(
  own: InputUnit,
  { before, after }: Pick<Ends, "before" | "after">,
  { forecast, prices }: Taken,
): UnitOutlook {
  const { pastLimit, fromModel, ageDays } =
    typeof forecast === "object" ? forecast : ((forecast === "after" ? after.unit : before.unit) ?? own).outlook;
  const costs = ((prices ? after.unit : before.unit) ?? own).outlook.model;
  // Another engine model has come with the unit, at its own costs.
  const model = costs.id === own.outlook.model.id ? costs : own.outlook.model;
  return { ...own.outlook, pastLimit, fromModel, ageDays, model };
}
