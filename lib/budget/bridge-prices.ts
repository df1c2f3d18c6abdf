import { classCostsOf, depotWorkshopOf, type UnitClassCosts, type Workshop } from "../schema/workshop.ts";
import { dateWords, numberWords } from "../wording.ts";
import type { BudgetInputs } from "./inputs.ts";

/** What of a budget's inputs prices hang on. */
type Priced = Pick<BudgetInputs, "workshop" | "asOf" | "units">;

/**
 * What is told otherwise of prices and workshops, each as a part of a sentence; by value: what a form writes out that was a default
 * before, or writes in another order, is no news.
 */
export function priceNews(was: Priced, now: Priced): readonly string[] {
  const [a, b] = [was.workshop, now.workshop];
  const figures = [
    ["labour rate", "labourRate", ""],
    ["growth of labour prices", "labourGrowthPercent", " %"],
    ["growth of parts prices", "partsGrowthPercent", " %"],
  ] as const;
  return [
    ...figures
      .filter(([, of]) => a[of] !== b[of])
      .map(([name, of, unit]) => `${name} from ${figure(a[of])} to ${figure(b[of])}${unit}`),
    ...(a.priceDate === b.priceDate
      ? []
      : [`price date ${b.priceDate === null ? "that of the plan" : dateWords(b.priceDate)}`]),
    ...(a.priceDate === null && b.priceDate === null && was.asOf !== now.asOf
      ? ["no price date told: prices are those of each budget’s own day"]
      : []),
    ...classNews(a, b),
    ...depotNews(a, b),
    ...(isSame(a.spreads, b.spreads) ? [] : ["spreads"]),
    ...repriced(was, now).map((id) => `hours and parts of ${id}`),
  ];
}

const costNames: Readonly<Record<keyof UnitClassCosts, readonly [name: string, unit: string]>> = {
  dayOff: ["a day out of service", ""],
  peakFactor: ["a day out of service in peak weeks", " times as much"],
  runningOnPerWeek: ["a week past the limit", ""],
  failurePercentPerWeek: ["chance of a failure in a week past the limit", " %"],
  failureExtra: ["extra cost of a failure", ""],
};
const costFields = Object.keys(costNames) as (keyof UnitClassCosts)[];

/** Costs of any class of units, and of those that have others. */
function classNews(a: Workshop, b: Workshop): readonly string[] {
  const any = costFields.filter((of) => a.anyClass[of] !== b.anyClass[of]);
  const told = (of: keyof UnitClassCosts, whose: string, was: UnitClassCosts, now: UnitClassCosts) =>
    `${costNames[of][0]}${whose} from ${figure(was[of])} to ${figure(now[of])}${costNames[of][1]}`;
  return [
    ...any.map((of) => told(of, "", a.anyClass, b.anyClass)),
    ...namesIn(a.unitClasses, b.unitClasses).flatMap((name) => {
      const [was, now] = [classCostsOf(a, name), classCostsOf(b, name)];
      // What it has of any class's is told once.
      const isAnyones = (of: keyof UnitClassCosts) => was[of] === a.anyClass[of] && now[of] === b.anyClass[of];
      return costFields
        .filter((of) => was[of] !== now[of] && !isAnyones(of))
        .map((of) => told(of, ` of the class ${name}`, was, now));
    }),
  ];
}

/** Rates and workshops of any depot, and of those that have others. A rate that is the fleet's is no depot's own. */
function depotNews(a: Workshop, b: Workshop): readonly string[] {
  const rateOf = ({ labourRate }: Workshop, own: number | null) => (own === labourRate ? null : own);
  const stands = (workshop: Workshop, depot: string | null) => {
    const { labourRate, ...has } = depot === null ? workshop.anyDepot : depotWorkshopOf(workshop, depot);
    return { rate: rateOf(workshop, labourRate), has };
  };
  const [anyWas, anyNow] = [stands(a, null), stands(b, null)];
  const told = (where: string, was: ReturnType<typeof stands>, now: ReturnType<typeof stands>, words: string) => [
    ...(was.rate === now.rate
      ? []
      : [`labour rate ${where} from ${figure(was.rate ?? a.labourRate)} to ${figure(now.rate ?? b.labourRate)}`]),
    ...(isSame(was.has, now.has) ? [] : [words]),
  ];
  return [
    ...told("at depots that tell none", anyWas, anyNow, "workshops of depots that tell none"),
    ...namesIn(a.depots, b.depots).flatMap((name) => {
      const [was, now] = [stands(a, name), stands(b, name)];
      return isSame([was, now], [anyWas, anyNow]) ? [] : told(`at ${name}`, was, now, `workshop of ${name}`);
    }),
  ];
}

/** Engine models of both budgets whose repairs cost something else. */
function repriced(was: Priced, now: Priced): readonly string[] {
  const models = new Map(was.units.map(({ outlook }) => [outlook.model.id, outlook.model]));
  const other = now.units
    .map(({ outlook }) => outlook.model)
    .filter(({ id, repairs }) => models.has(id) && !isSame(models.get(id)?.repairs, repairs));
  return [...new Set(other.map(({ id }) => id))];
}

const namesIn = (a: object, b: object): readonly string[] =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].toSorted();

/** By value: names in any order, and what is undefined as if it were not there. */
const isSame = (a: unknown, b: unknown): boolean => inOrder(a) === inOrder(b);

const inOrder = (value: unknown): string =>
  JSON.stringify(value, (_, of: unknown) =>
    of !== null && typeof of === "object" && !Array.isArray(of)
      ? Object.fromEntries(Object.entries(of).toSorted(([x], [y]) => (x < y ? -1 : 1)))
      : of,
  ) ?? "";

const figure = (value: number): string =>
  numberWords(value, Number.isInteger(value) ? 0 : Number.isInteger(10 * value) ? 1 : 2);
