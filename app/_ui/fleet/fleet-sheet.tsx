import { depotPeriods } from "../../../db/depots.ts";
import { fleetOptions, fleetPage } from "../../../db/fleet.ts";
import { fleetGroups } from "../../../db/fleet-counts.ts";
import type { Store } from "../../../db/store.ts";
import { addMonths } from "../../../lib/calendar.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Settings } from "../../../lib/schema/settings.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import { timeSpan } from "../time-span.ts";
import { allUnits, type FleetView, fleetAddress, isFiltered } from "./address.ts";
import { depotWeeks } from "./depot-weeks.ts";
import { monthsInWords } from "./finding.ts";
import { FleetControls } from "./fleet-controls.tsx";
import { FleetRows } from "./fleet-rows.tsx";
import { groupRuns } from "./groups.ts";

/** The units that the address asks for, with what chooses them. */
export async function FleetSheet(props: {
  readonly store: Store;
  readonly view: FleetView;
  readonly settings: Settings;
  readonly asOf: IsoDate;
  /** The last date that counts as soon. */
  readonly soonUntil: IsoDate;
  /** Of the engine model looked for. */
  readonly modelName: string | null;
  readonly f: Formats;
}) {
  const { store, view, settings, asOf, soonUntil, f } = props;
  const [{ rows, total }, groups, options, periods] = await Promise.all([
    fleetPage(store, view),
    view.group === null ? [] : fleetGroups(store, view, { group: view.group, soonUntil }),
    fleetOptions(store),
    depotPeriods(store),
  ]);
  const span = timeSpan(asOf, view.years);
  const before = (view.page - 1) * view.pageSize;
  const depots = rows.map((row) => row.depot);
  return (
    <Sheet label="Units" long className="fleet-sheet">
      <FleetControls view={view} options={options} modelName={props.modelName} />
      {rows.length === 0 ? (
        <EmptyState says="No unit matches this search and these filters.">
          {isFiltered(view) && (
            <AppLink variant="button" href={fleetAddress(view, allUnits)}>
              Show all units
            </AppLink>
          )}
        </EmptyState>
      ) : (
        <FleetRows
          f={f}
          view={view}
          rows={rows}
          total={total}
          runs={view.group === null ? null : groupRuns(rows, groups, { grouping: view.group, before })}
          asOf={asOf}
          span={span}
          horizonEnd={addMonths(asOf, Math.round(12 * settings.horizonYears))}
          within={monthsInWords(settings.leadTimeMonths)}
          linesId="fleet-axis"
          weeks={depotWeeks(periods, depots, span)}
        />
      )}
    </Sheet>
  );
}
