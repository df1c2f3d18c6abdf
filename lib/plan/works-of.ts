import { minorDigits } from "../schema/currency.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { Work } from "../schema/kept-plan.ts";
import type { DepotWorkshop, Workshop } from "../schema/workshop.ts";

type Costs = NonNullable<NonNullable<EngineModel["repairs"]>["both"]>;

/** Minor units in one of the currency: 100 cents, 1 yen, 1,000 fils (ISO 4217). */
export const minorUnits = (currency: string): number => 10 ** minorDigits(currency);

/** The ways to put an engine of a model right in a depot's workshop, as the model's costs and the depot's rates have it. */
export function worksOf(model: EngineModel, depot: DepotWorkshop, workshop: Workshop): readonly Work[] {
  const { topEnd, bottomEnd, both, exchange } = model.repairs ?? {};
  const { leadDays, spares } = workshop;
  const priced = (
    work: Omit<Work, "labour" | "parts" | "machining" | "labourHours" | "bayDays" | "daysOff">,
    of: Costs,
  ) => pricedWork(work, of, depot, workshop);
  const works: Work[] = [];
  if (topEnd !== undefined) {
    const lead = topEnd.leadDays ?? leadDays.topEnd;
    works.push(
      priced({ scope: "top-end", cures: ["topEnd"], leadDays: lead, needsBuilder: false, spareOf: null }, topEnd),
    );
  }
  if (bottomEnd !== undefined) {
    const lead = bottomEnd.leadDays ?? leadDays.bottomEnd;
    works.push(
      priced(
        { scope: "bottom-end", cures: ["bottomEnd"], leadDays: lead, needsBuilder: true, spareOf: null },
        bottomEnd,
      ),
    );
  }
  const cures = ["topEnd", "bottomEnd"] as const;
  const together =
    both ?? (topEnd === undefined || bottomEnd === undefined ? undefined : madeOf(topEnd, bottomEnd, workshop));
  if (together !== undefined) {
    const lead = together.leadDays ?? Math.max(leadDays.topEnd, leadDays.bottomEnd);
    works.push(priced({ scope: "both", cures, leadDays: lead, needsBuilder: true, spareOf: null }, together));
  }
  if (exchange !== undefined && spares[model.id] !== undefined) {
    const lead = exchange.leadDays ?? leadDays.exchange;
    works.push(priced({ scope: "exchange", cures, leadDays: lead, needsBuilder: false, spareOf: model.id }, exchange));
  }
  return works;
}

/** Both in one go, of the two: a bottom end contains most of a top end's labour, but none of its parts. */
function madeOf(top: Costs, bottom: Costs, { togetherLabourShare: share, leadDays }: Workshop): Costs {
  const sum = (a: number | undefined, b: number | undefined) =>
    a === undefined || b === undefined ? undefined : Math.round(a + share * b);
  const bayDays = sum(bottom.bayDays, top.bayDays);
  return {
    labourHours: bottom.labourHours + share * top.labourHours,
    parts: bottom.parts + top.parts,
    machining: (bottom.machining ?? 0) + (top.machining ?? 0),
    downtimeDays: Math.round(bottom.downtimeDays + share * top.downtimeDays),
    leadDays: Math.max(top.leadDays ?? leadDays.topEnd, bottom.leadDays ?? leadDays.bottomEnd),
    ...(bayDays === undefined ? {} : { bayDays }),
  };
}

function pricedWork(
  work: Omit<Work, "labour" | "parts" | "machining" | "labourHours" | "bayDays" | "daysOff">,
  of: Costs,
  depot: DepotWorkshop,
  { currency, labourRate }: Workshop,
): Work {
  const minor = minorUnits(currency);
  const { labourHours, downtimeDays } = of;
  const bayDays = Math.max(
    of.bayDays ?? Math.round((downtimeDays * depot.daysPerWeek) / 7),
    daysOfLabour(work, labourHours, depot),
  );
  return {
    ...work,
    labour: Math.round(labourHours * (depot.labourRate ?? labourRate) * minor),
    parts: Math.round(of.parts * minor),
    machining: Math.round((of.machining ?? 0) * minor),
    labourHours,
    daysOff: Math.max(downtimeDays, daysStanding(bayDays, depot)),
    bayDays,
  };
}

/** Calendar days that it stands in a bay, of as many working days from a Monday on. */
function daysStanding(bayDays: number, { daysPerWeek }: DepotWorkshop): number {
  const weekends = Math.max(0, Math.ceil(bayDays / daysPerWeek) - 1);
  return bayDays + weekends * (7 - daysPerWeek);
}

/**
 * Whether the hours of a work decide how long it stands in a bay, by how many people, and whether its days off the road come of that
 * (true) or are as its model tells them; null: the bay is taken for longer than the hours need.
 */
export function boundByLabour(
  work: Pick<Work, "needsBuilder" | "labourHours" | "bayDays" | "daysOff">,
  depot: DepotWorkshop,
): { readonly people: number; readonly isOffByBay: boolean } | null {
  const needed = daysOfLabour(work, work.labourHours, depot);
  if (needed === 0 || needed < work.bayDays) return null;
  return {
    people: work.needsBuilder ? depot.builders : depot.technicians,
    isOffByBay: work.daysOff === daysStanding(work.bayDays, depot),
  };
}

/** A bay is taken at least as long as all who may work there need for the hours; without anybody there, as told. */
function daysOfLabour({ needsBuilder }: Pick<Work, "needsBuilder">, labourHours: number, depot: DepotWorkshop): number {
  const aDay = (needsBuilder ? depot.builders : depot.technicians) * depot.productiveHoursPerDay;
  return aDay === 0 ? 0 : Math.ceil(labourHours / aDay - 1e-9);
}
