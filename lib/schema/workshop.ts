import { z } from "zod";
import { blankDepotSetup, buildersProblem, depotPeriodSchema } from "./depot.ts";

/**
 * What a plan and a budget need to know beside the fleet's facts: prices, what a day off the road costs, what each workshop
 * has. Money is in whole units of the currency, with decimals; it is reckoned with in its minor units.
 */

const money = z.number().min(0).max(1_000_000_000_000);
/** The name of a unit or a depot. */
const named = z.string().min(1);
const percentAYear = z.number().min(-50).max(200);

/** Each is optional where a class or a depot need not tell it, as any other's holds then. */
const costFields = {
  /** A day out of service: hire of another, or work that is not done. */
  dayOff: money,
  /** In peak weeks a day out of service costs so many times as much. */
  peakFactor: z.number().min(1).max(100),
  /** Fuel, oil and starting trouble of a week past the limit. */
  runningOnPerWeek: money,
  /** Chance of a failure in a week past the limit. Judgement. */
  failurePercentPerWeek: z.number().min(0).max(100),
  /** What a failure breaks or calls for beside the dearer repair: recovery, hire. */
  failureExtra: money,
};

/** What it costs that a unit of a class stands still, runs on past its limit, or fails there. */
const unitClassCostsSchema = z.strictObject({
  dayOff: costFields.dayOff.default(150),
  peakFactor: costFields.peakFactor.default(2),
  runningOnPerWeek: costFields.runningOnPerWeek.default(40),
  failurePercentPerWeek: costFields.failurePercentPerWeek.default(3),
  failureExtra: costFields.failureExtra.default(0),
});
export type UnitClassCosts = z.infer<typeof unitClassCostsSchema>;

const depotFields = {
  bays: z.number().int().min(0).max(500),
  technicians: z.number().int().min(0).max(5_000),
  productiveHoursPerDay: z.number().positive().max(24),
  daysPerWeek: z.number().int().min(1).max(7),
  /** People who can build bottom ends; they are among the technicians. */
  builders: z.number().int().min(0).max(5_000),
  /** A technician's hour; null: the fleet's. */
  labourRate: money.nullable(),
  periods: z.array(depotPeriodSchema),
};

/** 5.5 to 6.5 productive hours a day, and one or two people who can build bottom ends, are common practice, no source. */
const depotWorkshopSchema = z.strictObject({
  bays: depotFields.bays.default(1),
  technicians: depotFields.technicians.default(2),
  productiveHoursPerDay: depotFields.productiveHoursPerDay.default(6),
  daysPerWeek: depotFields.daysPerWeek.default(5),
  builders: depotFields.builders.default(1),
  labourRate: depotFields.labourRate.default(null),
  periods: depotFields.periods.default(blankDepotSetup.periods),
});
export type DepotWorkshop = z.infer<typeof depotWorkshopSchema>;

const sparesSchema = z.strictObject({
  count: z.number().int().min(0).max(10_000),
  /** Weeks until an engine that came out has been built and can go in again. */
  turnaroundWeeks: z.number().int().min(1).max(520).default(12),
});

const groupSchema = z.strictObject({
  name: z.string().trim().min(1).max(200),
  units: z.array(named).min(2),
  /** How many of them may be out in one week. */
  mostOut: z.number().int().min(1),
});

const otherWorkSchema = z.strictObject({
  unit: named,
  /** Any day of the week in which the unit is in the workshop anyway. */
  date: z.iso.date(),
  days: z.number().positive().max(365),
  what: z.string().max(200).default(""),
});

const takenSchema = z.strictObject({
  depot: named,
  date: z.iso.date(),
  bayDays: z.number().min(0).max(10_000).default(0),
  hours: z.number().min(0).max(100_000).default(0),
  what: z.string().max(200).default(""),
});

const peakSchema = z.strictObject({
  unitClass: named,
  /** ISO weeks of every year, both counted in; 46 to 8 runs over the year's end. */
  firstWeek: z.number().int().min(1).max(53),
  lastWeek: z.number().int().min(1).max(53),
  what: z.string().max(200).default(""),
});

export const planScopes = ["top-end", "bottom-end", "both", "exchange"] as const;

const pinSchema = z.strictObject({ unit: named, scope: z.enum(planScopes), date: z.iso.date() });

const currencySchema = z.string().regex(/^[A-Z]{3}$/, "must be a code of ISO 4217, such as EUR; XXX for none");

const documentSchema = z.strictObject({
  schemaVersion: z.literal(1).default(1),
  /** ISO 4217; XXX: none is named. */
  currency: currencySchema.default("XXX"),
  /** Day at whose prices all amounts stand; null: that on which they were told, and where nobody knows it, the day of the plan. */
  priceDate: z.iso.date().nullable().default(null),
  /** Growth of prices in % a year; 2 to 6 is common practice, no source. */
  labourGrowthPercent: percentAYear.default(3),
  partsGrowthPercent: percentAYear.default(4),
  /** A technician's hour. */
  labourRate: money.default(60),
  /** Weeks in which work may be planned to begin. */
  planWeeks: z.number().int().min(26).max(104).default(52),
  /** By how many weeks later plans, which know more, are taken to miss the right week of a repair. Judgement. */
  missWeeks: z.number().int().min(0).max(260).default(8),
  /** Working days until parts can be had, where the engine model tells none. Common practice, no source. */
  leadDays: z
    .strictObject({
      topEnd: z.number().min(0).max(1000).default(10),
      bottomEnd: z.number().min(0).max(1000).default(20),
      exchange: z.number().min(0).max(1000).default(30),
    })
    .prefault({}),
  /** A second class of repair within so many months of the first is made together with it. 12 to 18 is common practice. */
  togetherMonths: z.number().int().min(1).max(60).default(18),
  /**
   * Share of a top end's labour that a bottom end done at the same time adds; it contains most of a top end. 10 to 30 % is
   * common practice, no source.
   */
  togetherLabourShare: z.number().min(0).max(1).default(0.2),
  /** First month of the fiscal year, and how many months a budget has. */
  fiscalYearStartMonth: z.number().int().min(1).max(12).default(1),
  budgetMonths: z.number().int().min(12).max(60).default(36),
  /**
   * How far a repair's hours, its parts, and the growth of prices may lie from what is told, in %; and the share of a forecast's
   * uncertainty that engines of a model have in common. Judgement.
   */
  spreads: z
    .strictObject({
      hoursPercent: z.number().min(0).max(200).default(20),
      partsPercent: z.number().min(0).max(200).default(20),
      growthPercent: z.number().min(0).max(50).default(1.5),
      ofModelPercent: z.number().min(0).max(100).default(10),
    })
    .prefault({}),
  /**
   * What is set aside beside a quote, in % of what its work is expected to cost: 10 to 20 for planned work, 25 to 40 until an engine is
   * opened, is common practice, no source.
   */
  contingencyPercent: z.number().min(0).max(200).default(15),
  anyClass: unitClassCostsSchema.prefault({}),
  /** What a class does not tell is that of any class. */
  unitClasses: z.record(z.string(), z.strictObject(costFields).partial()).default({}),
  anyDepot: depotWorkshopSchema.prefault({}),
  /** What a depot does not tell is that of any depot. */
  depots: z.record(z.string(), z.strictObject(depotFields).partial()).default({}),
  /** When units of a class are needed most, beside the peak weeks of their depots. */
  peaks: z.array(peakSchema).default([]),
  spares: z.record(z.string(), sparesSchema).default({}),
  groups: z.array(groupSchema).default([]),
  otherWork: z.array(otherWorkSchema).default([]),
  taken: z.array(takenSchema).default([]),
  pins: z.array(pinSchema).default([]),
});
export type Workshop = z.infer<typeof documentSchema>;

/** The document, each value in its range, and those that hang together as they must. */
export const workshopSchema = documentSchema.superRefine((workshop, { addIssue }) => {
  for (const { path, message } of contradictions(workshop)) addIssue({ code: "custom", path: [...path], message });
});

interface Contradiction {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

function contradictions(workshop: Workshop): Contradiction[] {
  const { technicians, builders } = workshop.anyDepot;
  const of = [
    { path: ["anyDepot", "builders"], message: buildersProblem(builders, technicians) },
    ...Object.entries(workshop.depots).map(([depot, told]) => ({
      path: ["depots", depot, "builders"],
      message: buildersProblem(told.builders ?? null, depotWorkshopOf(workshop, depot).technicians),
    })),
  ];
  const wrong = of.flatMap(({ path, message }) => (message === null ? [] : [{ path, message }]));
  return [
    ...wrong,
    ...workshop.groups.flatMap((group, i) => groupContradictions(group, workshop.groups.slice(0, i), i)),
  ];
}

function groupContradictions(
  { name, units }: Workshop["groups"][number],
  before: Workshop["groups"],
  i: number,
): Contradiction[] {
  const same = before.findIndex((other) => other.name === name);
  const twice = units.find((unit, at) => units.indexOf(unit) !== at);
  return [
    ...(same === -1
      ? []
      : [
          {
            path: ["groups", i, "name"],
            message: `Group ${same + 1} is called ${name} as well: give each group a name of its own.`,
          },
        ]),
    ...(twice === undefined
      ? []
      : [{ path: ["groups", i, "units"], message: `${twice} is named twice in the group ${name}: name it once.` }]),
  ];
}

/** By a name that somebody typed: it may be that of a property which every object has. */
const ownOf = <T>(of: Readonly<Record<string, T>>, name: string): T | undefined =>
  Object.hasOwn(of, name) ? of[name] : undefined;

/** What is told, and beside it what holds otherwise. */
function over<T extends object>(usual: T, told: { readonly [K in keyof T]?: T[K] | undefined } = {}): T {
  return { ...usual, ...Object.fromEntries(Object.entries(told).filter(([, value]) => value !== undefined)) };
}

/**
 * A depot's workshop; what it does not tell is that of any depot. Of these no more people build bottom ends than it has
 * technicians.
 */
export function depotWorkshopOf(
  { depots, anyDepot }: Pick<Workshop, "depots" | "anyDepot">,
  depot: string,
): DepotWorkshop {
  const workshop = over(anyDepot, ownOf(depots, depot));
  return { ...workshop, builders: Math.min(workshop.builders, workshop.technicians) };
}

/** What it costs that a unit of a class stands still; what the class does not tell is that of any class. */
export const classCostsOf = (
  { unitClasses, anyClass }: Pick<Workshop, "unitClasses" | "anyClass">,
  unitClass: string | null,
): UnitClassCosts => over(anyClass, unitClass === null ? undefined : ownOf(unitClasses, unitClass));

/** What of the document a price date is the day of: prices that grow. Two documents with the same ones tell no new prices. */
export const growingPrices = ({ currency, labourRate, anyDepot }: Workshop) => ({
  currency,
  labourRate,
  depotLabourRate: anyDepot.labourRate,
});
