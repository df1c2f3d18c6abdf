import type { Crossing } from "../lib/schema/assessment.ts";
import type { FleetRow, UnitReport, WindowDates } from "../lib/schema/report.ts";
import type { Schema } from "./schema.ts";
import { searchTextOf } from "./searching.ts";
import { standingColumns } from "./standing.ts";

type FleetRowColumns = Schema["fleetRows"]["$inferSelect"];

/** What the Fleet page needs of a report, in columns that can be searched, filtered and sorted. */
export function fleetRowOf(
  report: UnitReport,
  told: Pick<FleetRowColumns, "because" | "importId" | "issuedAt" | "issueId" | "madeAt">,
): FleetRowColumns {
  const { assessment, model, place, fromModel } = report;
  const { unit, repairs } = assessment;
  // Nobody repairs what is sold before a repair is likely.
  const asked = (["topEnd", "bottomEnd"] as const).filter((side) => assessment.soldBefore?.[side] !== true);
  return {
    ...told,
    ...standingColumns(report.asOf, assessment),
    unit,
    unitOrder: nameOrder(unit),
    engineModel: assessment.engineModel,
    modelName: model.name ?? model.id,
    layout: model.layout,
    depot: report.depot,
    status: report.status,
    cylinderBands: [...assessment.cylinders].sort((a, b) => a.cylinder - b.cylinder).map((c) => c.band),
    placeTitle: place.title,
    placeDetail: place.detail,
    testOverdue: report.testOverdue,
    perDay: assessment.meter.perDay,
    meterUnit: assessment.meter.unit,
    meter: assessment.meter.value,
    unitClass: report.unitClass,
    engineSerial: assessment.engineSerial,
    nextTestDue: report.nextTestDue,
    ...shownWindows(assessment, fromModel),
    topEndChance: repairs.topEnd.probabilityWithinYear,
    bottomEndChance: repairs.bottomEnd.probabilityWithinYear,
    ...dueOf(asked.map((side) => windowOf(repairs[side]))),
    searchText: searchTextOf(
      [unit, assessment.engineSerial, model.id, model.name],
      [report.depot, place.title, place.detail],
    ),
  };
}

/** A crossing as the Fleet tells it. */
export const windowOf = ({ status, date }: Crossing): WindowDates => ({ status, ...date });

/** The windows of a Fleet row, with the planned disposal where that comes before. Where the tests give none, the model's: it is drawn, but nothing is due by it. */
function shownWindows(
  { repairs, soldBefore = null }: UnitReport["assessment"],
  fromModel: UnitReport["fromModel"],
): Pick<FleetRow, "topEnd" | "bottomEnd"> {
  const shown = (side: "topEnd" | "bottomEnd"): WindowDates => {
    const own = windowOf(repairs[side]);
    if (own.status === "too-few-tests") return fromModel?.[side] ?? own;
    return soldBefore?.[side] ? { ...own, soldOn: soldBefore.date } : own;
  };
  return { topEnd: shown("topEnd"), bottomEnd: shown("bottomEnd") };
}

/** Crossed comes first, then the likely date, then the earliest one that has to be reckoned with. */
function dueOf(windows: readonly WindowDates[]): Pick<FleetRowColumns, "duePlace" | "dueDate"> {
  const earliest = (dates: readonly (string | null)[]) => dates.filter((date) => date !== null).sort()[0];
  const crossed = windows.filter((window) => window.status === "crossed");
  if (crossed.length > 0) return { duePlace: 0, dueDate: earliest(crossed.map((window) => window.p50)) ?? null };
  const likely = earliest(windows.map((window) => window.p50));
  if (likely !== undefined) return { duePlace: 1, dueDate: likely };
  const first = earliest(windows.map((window) => window.p10));
  return first === undefined ? { duePlace: null, dueDate: null } : { duePlace: 2, dueDate: first };
}

/** Names as people order them: numbers by their size. */
export const nameOrder = (name: string): string =>
  name.toLowerCase().replace(/\d+/g, (digits) => digits.padStart(12, "0"));

export const toFleetRow = (row: FleetRowColumns): FleetRow => ({
  unit: row.unit,
  engineModel: row.engineModel,
  modelName: row.modelName,
  layout: row.layout,
  depot: row.depot,
  band: row.band,
  cylinderBands: row.cylinderBands,
  placeTitle: row.placeTitle,
  placeDetail: row.placeDetail,
  lastTestDate: row.lastTestDate,
  testOverdue: row.testOverdue,
  questions: row.questions,
  perDay: row.perDay,
  meterUnit: row.meterUnit,
  meter: row.meter,
  unitClass: row.unitClass,
  status: row.status,
  engineSerial: row.engineSerial,
  nextTestDue: row.nextTestDue,
  topEnd: row.topEnd,
  bottomEnd: row.bottomEnd,
  topEndChance: row.topEndChance,
  bottomEndChance: row.bottomEndChance,
});
