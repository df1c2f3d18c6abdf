import type { DepotOverview } from "../../../db/depot-overview.ts";
import { type CsvTable, csvTable } from "../../../lib/outtake/csv-table.ts";
import { blankDepotSetup } from "../../../lib/schema/depot.ts";
import { setupColumns } from "../history-files.ts";
import { unitCountColumns } from "../unit-counts.ts";

/** The list of depots: where each lies, how its units stand, and what it has to work with and when. */
export const depotsTable = (depots: readonly DepotOverview[]): CsvTable =>
  csvTable(depots, {
    depot: ({ depot }) => depot,
    altitude_m: ({ altitudeM }) => altitudeM,
    ...unitCountColumns<DepotOverview>(({ units }) => units),
    ...setupColumns<DepotOverview>(({ change }) => change?.setup ?? blankDepotSetup),
  });
