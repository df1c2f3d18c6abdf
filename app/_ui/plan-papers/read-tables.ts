import { unitReport } from "../../../db/assessments.ts";
import { fleetUnits } from "../../../db/fleet.ts";
import type { Store } from "../../../db/store.ts";
import type { CsvTable } from "../../../lib/outtake/csv-table.ts";
import { loadOf } from "../../../lib/plan/load.ts";
import { type PartsDemand, partsDemand } from "../../../lib/plan/parts-demand.ts";
import { priceGrowthOf } from "../../../lib/plan/problem-of.ts";
import { likelyWaiting } from "../../../lib/plan/waiting.ts";
import type { KeptBooking, KeptPlan } from "../../../lib/schema/kept-plan.ts";
import { droppedNow } from "../../_jobs/plan-dropped.ts";
import type { PlanNow } from "../../_jobs/plan-now.ts";
import { planForPapers, planOutcomes } from "../../_jobs/plan-papers.ts";
import { plainFleetView } from "../fleet/address.ts";
import type { PlanTableName } from "./address.ts";
import { type BookedPaper, jobCardsTable, quotesTable } from "./paper-files.ts";
import {
  bookingsTable,
  doneTable,
  droppedTable,
  loadTable,
  notFittedTable,
  partsTable,
  waitingTable,
} from "./plan-files.ts";
import { quoteCases } from "./quote-cases.ts";

/** The depot of each unit that is on the books. */
async function depotsOfUnits(store: Store): Promise<ReadonlyMap<string, string | null>> {
  const units = await fleetUnits(store, { ...plainFleetView, sort: "unit" });
  return new Map(units.map(({ unit, depot }) => [unit, depot]));
}

/** What a plan as it stands says of one depot; null: of all. */
export interface DepotPlan {
  readonly plan: KeptPlan;
  readonly parts: readonly PartsDemand[];
  readonly depotOf: (unit: string) => string | null;
}

/** The plan with what is still booked, and of what waits what is likely enough to be told, of a depot or of all. */
export async function planOfDepot(store: Store, now: PlanNow, depot: string | null): Promise<DepotPlan> {
  const depots = await depotsOfUnits(store);
  const { plan, workshop, asOf } = now.row;
  const isHere = ({ unit }: { readonly unit: string }) =>
    depots.has(unit) && (depot === null || depots.get(unit) === depot);
  const dropped = now.choices.filter(({ kind }) => kind === "drop");
  const bookings = now.bookings.filter((booking) => depot === null || booking.depot === depot);
  return {
    plan: {
      ...plan,
      bookings,
      notFitted: plan.notFitted.filter(isHere),
      waiting: likelyWaiting(plan.waiting.filter(isHere), dropped),
      leftOut: plan.leftOut.filter(isHere),
      depots: plan.depots.filter((of) => depot === null || of.depot === depot),
    },
    parts: partsDemand(bookings, { asOf: now.asOf, prices: priceGrowthOf(workshop, asOf) }),
    depotOf: (unit) => depots.get(unit) ?? null,
  };
}

/** What the papers of bookings are written from; a unit without a report has none. */
async function bookedPapers(
  store: Store,
  { row }: PlanNow,
  bookings: readonly KeptBooking[],
): Promise<readonly BookedPaper[]> {
  const papers = await Promise.all(
    bookings.map(async (booking): Promise<BookedPaper | null> => {
      const report = await unitReport(store, booking.unit);
      return report === null ? null : { report, booking, cases: quoteCases(booking, report.model, row) };
    }),
  );
  return papers.filter((paper) => paper !== null);
}

/** One of a plan's tables, of a depot or of all; null: no plan was made yet. */
export async function planTable(
  store: Store,
  name: PlanTableName,
  { depot, now }: { readonly depot: string | null; readonly now: Date },
): Promise<CsvTable | null> {
  if (name === "done") {
    const outcomes = await planOutcomes(store);
    return doneTable(outcomes.filter((outcome) => depot === null || outcome.depot === depot));
  }
  const standing = await planForPapers(store, now);
  if (standing === null) return null;
  const { plan, parts, depotOf } = await planOfDepot(store, standing, depot);
  const { currency } = plan;
  switch (name) {
    case "bookings":
      return bookingsTable(plan.bookings, currency);
    case "load":
      return loadTable(loadOf(plan, plan), plan);
    case "not-fitted":
      return notFittedTable(plan, depotOf);
    case "dropped": {
      const dropped = await droppedNow(store, standing);
      return droppedTable(
        dropped
          .map((of) => ({ ...of, depot: of.depot ?? depotOf(of.unit) }))
          .filter((of) => depot === null || of.depot === depot),
        currency,
      );
    }
    case "waiting":
      return waitingTable(plan, depotOf);
    case "parts":
      return partsTable(parts, currency);
    case "job-cards":
      return jobCardsTable(await bookedPapers(store, standing, plan.bookings), currency);
    case "quotes":
      return quotesTable(await bookedPapers(store, standing, plan.bookings), currency);
  }
}
