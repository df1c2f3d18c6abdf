import { noCurrency } from "../schema/currency.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { Workshop } from "../schema/workshop.ts";
import { dateWords, listWords } from "../wording.ts";
import { minorUnits } from "./works-of.ts";

/** What is known of a fleet beside the document; `bays` null: the depot tells none of its own. */
export interface FleetKnown {
  readonly units: ReadonlySet<string>;
  readonly depots: readonly { readonly depot: string; readonly bays: number | null }[];
  /** Today. */
  readonly asOf: IsoDate;
}

type Told = Pick<
  Workshop,
  | "groups"
  | "anyDepot"
  | "currency"
  | "priceDate"
  | "labourRate"
  | "labourGrowthPercent"
  | "partsGrowthPercent"
  | "contingencyPercent"
>;

/** What prices are hardly meant to be: an hour of labour, in minor units of a currency that has any, else in the currency; growth in % a year. Judgement. */
const hardlyMeant = { hourInMinor: 50_000, hourWithoutMinor: 100_000, growth: 20, shrink: -5, contingency: 60 };

/** What holds, but may well not be meant, of prices and workshops: sentences that say what a plan makes of it. Nothing is refused for it. */
export function workshopCautions(told: Told, { units: fleet, depots, asOf }: FleetKnown): readonly string[] {
  const { groups, anyDepot } = told;
  return [
    ...priceCautions(told, asOf),
    ...(anyDepot.bays === 0 ? [noBays(depots)] : []),
    ...groups.flatMap(({ name, units, mostOut }) => {
      const most = `no more than ${mostOut} of all units ${mostOut === 1 ? "is" : "are"}`;
      const isAll = fleet.size > 0 && [...fleet].every((unit) => units.includes(unit));
      return [
        ...(isAll
          ? [`The group ${name} names every unit of the fleet: ${most} planned out in a week, at all depots together.`]
          : []),
        ...(mostOut >= units.length
          ? [`The group ${name} limits nothing: all of its ${units.length} units may be out at once.`]
          : []),
      ];
    }),
  ];
}

function priceCautions({ currency, priceDate, anyDepot, ...told }: Told, asOf: IsoDate): readonly string[] {
  const minor = minorUnits(currency);
  const mostOfHour = minor === 1 ? hardlyMeant.hourWithoutMinor : hardlyMeant.hourInMinor / 100;
  const rates = [
    ["An hour of labour", told.labourRate],
    ["An hour of labour at any depot", anyDepot.labourRate],
  ] as const;
  const growths = [
    ["Labour grows", "Labour falls", told.labourGrowthPercent],
    ["Parts grow", "Parts fall", told.partsGrowthPercent],
  ] as const;
  const { growth, shrink, contingency } = hardlyMeant;
  return [
    ...(currency !== noCurrency && !Intl.supportedValuesOf("currency").includes(currency)
      ? [`${currency} is the code of no currency in use: amounts are told in it all the same.`]
      : []),
    ...(priceDate !== null && priceDate > asOf
      ? [`Prices are told as of ${dateWords(priceDate)}, which is to come: until then nothing grows.`]
      : []),
    ...rates.flatMap(([what, rate]) =>
      rate !== null && rate > mostOfHour ? [`${what} costs ${rate}: dearer than hours hardly are.`] : [],
    ),
    ...growths.flatMap(([grows, falls, percent]) =>
      percent > growth || percent < shrink
        ? [`${percent < 0 ? falls : grows} by ${Math.abs(percent)} % a year: 2 to 6 is common practice.`]
        : [],
    ),
    ...(told.contingencyPercent > contingency
      ? [`Contingency is ${told.contingencyPercent} %: 10 to 40 is common practice.`]
      : []),
  ];
}

function noBays(depots: FleetKnown["depots"]): string {
  const own = depots.flatMap(({ depot, bays }) => (bays === null ? [] : [depot]));
  const without = depots.flatMap(({ depot, bays }) => (bays === null ? [depot] : []));
  if (without.length === 0 && own.length > 0)
    return `Any depot’s workshop has no bays. Each depot has its own on its page, so this holds for none now.`;
  const told = own.length === 0 ? "" : ` ${listWords(own)} ${own.length === 1 ? "has its" : "have their"} own.`;
  return `Any depot’s workshop has no bays: no repair is planned at ${without.length === 0 ? "any depot" : listWords(without)} until bays are told there, on the depot’s page.${told}`;
}
