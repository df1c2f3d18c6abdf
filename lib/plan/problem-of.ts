import { addDays, daysBetween, mondayOnOrAfter } from "../calendar.ts";
import { periodsWithin } from "../depot-calendar.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Pin, RepairClass, WhyLeftOut } from "../schema/kept-plan.ts";
import type { UnitStatus } from "../schema/words.ts";
import { classCostsOf, depotWorkshopOf, type UnitClassCosts, type Workshop } from "../schema/workshop.ts";
import { depotWeeks } from "./depot-weeks.ts";
import type { Need, PlanProblem, PlanUnit, PriceGrowth } from "./types.ts";
import { minorUnits, worksOf } from "./works-of.ts";

/** What a plan takes from a unit's assessment. */
export interface UnitOutlook {
  readonly unit: string;
  readonly depot: string | null;
  readonly unitClass: string | null;
  readonly status: UnitStatus;
  readonly model: EngineModel;
  /** Still to come; null: none planned. */
  readonly disposalDate: IsoDate | null;
  /** Probability to be past a limit of each class, ascending by date from the as-of date on; empty: too few tests. */
  readonly pastLimit: readonly { readonly date: IsoDate; readonly topEnd: number; readonly bottomEnd: number }[];
  /** The same by what sister engines do, where the unit's own tests are too few. */
  readonly fromModel: UnitOutlook["pastLimit"];
  /** Days since the lives of valves and gasket, and of rings and bores, began. */
  readonly ageDays: Readonly<Record<RepairClass, number>>;
}

export interface PlanSetUp {
  readonly problem: PlanProblem;
  readonly leftOut: readonly { readonly unit: string; readonly why: WhyLeftOut }[];
  /** Pins that lie outside the plan's weeks. */
  readonly outside: readonly Workshop["pins"][number][];
}

const daysOfWeek = 7;
const weeksOfYear = 52.18;
const classes = ["topEnd", "bottomEnd"] as const;
/** Weeks beyond the plan's last in which what began within it may be finished. */
const weeksToFinish = 26;

/** The planning problem of a fleet as of a date. Its first week is the first that begins on or after that date. */
export function planProblemOf(
  outlooks: readonly UnitOutlook[],
  workshop: Workshop,
  { asOf, dropped }: { readonly asOf: IsoDate; readonly dropped: PlanProblem["dropped"] },
): PlanSetUp {
  const firstMonday = mondayOnOrAfter(asOf);
  const leftOut: { unit: string; why: WhyLeftOut }[] = [];
  const units: PlanUnit[] = [];
  for (const outlook of outlooks) {
    const made = outlook.pastLimit.length === 0 ? notForeseen(outlook) : planUnitOf(outlook, workshop, firstMonday);
    if (typeof made === "string") leftOut.push({ unit: outlook.unit, why: made });
    else units.push(made);
  }
  const depots = depotsOf([...new Set(units.map(({ depot }) => depot))].toSorted(), workshop, {
    firstMonday,
    weeks: workshop.planWeeks + weeksToFinish,
  });
  const pins = workshop.pins.map((pin) => ({ ...pin, week: weekOf(firstMonday, pin.date) }));
  const isWithin = ({ week }: Pick<Pin, "week">) => week >= 0 && week < workshop.planWeeks;
  return {
    problem: {
      firstMonday,
      weeks: workshop.planWeeks,
      missWeeks: workshop.missWeeks,
      togetherWeeks: monthsToWeeks(workshop.togetherMonths),
      units,
      depots,
      prices: priceGrowthOf(workshop, asOf),
      mostOut: Object.fromEntries(workshop.groups.map(({ name, mostOut }) => [name, mostOut])),
      spares: workshop.spares,
      pins: pins.filter(isWithin).map(({ unit, scope, week }) => ({ unit, scope, week })),
      dropped,
    },
    leftOut,
    outside: pins.filter((pin) => !isWithin(pin)).map(({ week: _, ...pin }) => pin),
  };
}

/** What the workshops of some depots have in each week from a Monday on. */
export const depotsOf = (
  depots: readonly string[],
  workshop: Workshop,
  weeks: { readonly firstMonday: IsoDate; readonly weeks: number },
): PlanProblem["depots"] =>
  depots.map((depot) => ({
    depot,
    weeks: depotWeeks(
      depotWorkshopOf(workshop, depot),
      workshop.taken.filter((of) => of.depot === depot),
      weeks,
    ),
  }));

export const monthsToWeeks = (months: number): number => Math.round((months * weeksOfYear) / 12);

/** How prices grow, from which day on; where none was told, from that of the plan. */
export const priceGrowthOf = (
  {
    priceDate,
    labourGrowthPercent,
    partsGrowthPercent,
  }: Pick<Workshop, "priceDate" | "labourGrowthPercent" | "partsGrowthPercent">,
  asOf: IsoDate,
): PriceGrowth => ({
  priceDate: priceDate ?? asOf,
  labour: labourGrowthPercent / 100,
  parts: partsGrowthPercent / 100,
});

const weekOf = (firstMonday: IsoDate, date: IsoDate): number => Math.floor(daysBetween(firstMonday, date) / daysOfWeek);

/** A unit whose own tests foresee nothing is not planned: it is to be tested first. */
const notForeseen = ({ status }: UnitOutlook): WhyLeftOut => (status === "retired" ? "retired" : "too-few-tests");

/** What a plan and a budget take of a unit; or why it is left out. */
export function planUnitOf(outlook: UnitOutlook, workshop: Workshop, firstMonday: IsoDate): PlanUnit | WhyLeftOut {
  const { unit, depot, status, model, pastLimit, disposalDate } = outlook;
  if (status === "retired") return "retired";
  if (pastLimit.length === 0) return "too-few-tests";
  if (depot === null) return "no-depot";
  const works = worksOf(model, depotWorkshopOf(workshop, depot), workshop);
  if (works.length === 0) return "no-costs";
  const costs = classCostsOf(workshop, outlook.unitClass);
  const minor = minorUnits(workshop.currency);
  const dayCost = Math.round(costs.dayOff * minor);
  return {
    unit,
    depot,
    engineModel: model.id,
    works,
    dayCost,
    peakFactor: costs.peakFactor,
    peakWeeks: peakWeeks(workshop.peaks, outlook.unitClass, { firstMonday, weeks: workshop.planWeeks + weeksToFinish }),
    needs: classes
      .filter((of) => works.some(({ cures }) => cures.includes(of)))
      .map((of): Need => {
        const { unplannedFactor = 1 } = model.repairs?.[of] ?? {};
        const crossed = weeklyCrossings(pastLimit, of, { firstMonday, least: workshop.planWeeks + 1 });
        return { of, crossed, ageWeeks: Math.max(0, outlook.ageDays[of]) / daysOfWeek, unplannedFactor };
      }),
    runningOn: status === "stopped" ? standing(dayCost) : runningOn(costs, minor),
    disposalWeek: disposalDate === null ? null : Math.max(0, weekOf(firstMonday, disposalDate)),
    groups: workshop.groups.filter(({ units }) => units.includes(unit)).map(({ name }) => name),
    otherWork: otherWeeks(
      workshop.otherWork.filter((work) => work.unit === unit),
      firstMonday,
    ),
  };
}

/** The weeks that are a peak of a class of units; week 53 of a year of 52 is its last. */
function peakWeeks(
  peaks: Workshop["peaks"],
  unitClass: string | null,
  { firstMonday, weeks }: { readonly firstMonday: IsoDate; readonly weeks: number },
): ReadonlySet<number> {
  const periods = peaks
    .filter((peak) => peak.unitClass === unitClass)
    .map(
      ({ firstWeek, lastWeek }) => ({ kind: "peak", repeat: "yearly", firstWeek, lastWeek, remarks: null }) as const,
    );
  const spans = periodsWithin(periods, firstMonday, addDays(firstMonday, weeks * daysOfWeek - 1));
  return new Set(
    spans.flatMap(({ from, to }) => {
      const [first, last] = [weekOf(firstMonday, from), weekOf(firstMonday, to)];
      return Array.from({ length: last - first + 1 }, (_, i) => first + i);
    }),
  );
}

/** Days of each week on which a unit is in the workshop for other work; a day on which two works lie counts once. */
function otherWeeks(works: Workshop["otherWork"], firstMonday: IsoDate): PlanUnit["otherWork"] {
  const shares = new Map<number, number>();
  for (const { date, days } of works) {
    const from = daysBetween(firstMonday, date);
    // The last day may be a part of one.
    for (let day = 0; day < days; day++)
      shares.set(from + day, Math.max(shares.get(from + day) ?? 0, Math.min(1, days - day)));
  }
  const weeks = new Map<number, number>();
  for (const [day, share] of shares) {
    const week = Math.floor(day / daysOfWeek);
    weeks.set(week, (weeks.get(week) ?? 0) + share);
  }
  return [...weeks].map(([week, days]) => ({ week, days })).toSorted((x, y) => x.week - y.week);
}

/** A unit that is stopped fails no more; each week without its repair is one out of service. */
const standing = (dayCost: number): PlanUnit["runningOn"] => ({
  perWeek: daysOfWeek * dayCost,
  failurePerWeek: 0,
  damage: 0,
});

const runningOn = (
  { runningOnPerWeek, failurePercentPerWeek, failureExtra }: UnitClassCosts,
  minor: number,
): PlanUnit["runningOn"] => ({
  perWeek: Math.round(runningOnPerWeek * minor),
  failurePerWeek: failurePercentPerWeek / 100,
  damage: Math.round(failureExtra * minor),
});

/**
 * The probabilities of a forecast at the Mondays from the first on, straight between its dates, until its last; at least so
 * many, of which those beyond the forecast stay at its last.
 */
export function weeklyCrossings(
  pastLimit: UnitOutlook["pastLimit"],
  of: RepairClass,
  { firstMonday, least }: { readonly firstMonday: IsoDate; readonly least: number },
): Float64Array {
  const at = pastLimit.map(({ date }) => daysBetween(firstMonday, date));
  const weeks = Math.max(least, Math.floor((at.at(-1) as number) / daysOfWeek) + 1);
  let next = 1;
  return Float64Array.from({ length: weeks }, (_, week) => {
    const day = week * daysOfWeek;
    while (next < at.length - 1 && (at[next] as number) < day) next++;
    const [a, b] = [pastLimit[next - 1], pastLimit[Math.min(next, pastLimit.length - 1)]];
    if (a === undefined || b === undefined || a === b) return (b ?? a)?.[of] ?? 0;
    const [from, to] = [at[next - 1] as number, at[next] as number];
    const share = Math.min(1, Math.max(0, (day - from) / (to - from)));
    return a[of] + share * (b[of] - a[of]);
  });
}
