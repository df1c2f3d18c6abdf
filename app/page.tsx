import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { appStore } from "../db/app-store.ts";
import { depotPeriods } from "../db/depots.ts";
import { fleetOptions, fleetPage } from "../db/fleet.ts";
import { countUnits, fleetCounts, fleetGroups, plannedDue } from "../db/fleet-counts.ts";
import { knownSoFar } from "../db/known-so-far.ts";
import { readSettings } from "../db/settings.ts";
import { addMonths } from "../lib/calendar.ts";
import { asOfDate } from "./_jobs/as-of.ts";
import { AppLink } from "./_ui/app-link.client.tsx";
import { ChangedCount } from "./_ui/changes/changed-count.tsx";
import { EmptyState } from "./_ui/empty-state.tsx";
import { type AddressParts, allUnits, fleetAddress, isFiltered, readFleetAddress } from "./_ui/fleet/address.ts";
import { depotWeeks, dueWhileClosed } from "./_ui/fleet/depot-weeks.ts";
import { EmptyFleet } from "./_ui/fleet/empty-fleet.tsx";
import { fleetFinding, monthsInWords } from "./_ui/fleet/finding.ts";
import { FleetControls } from "./_ui/fleet/fleet-controls.tsx";
import { FleetCountLinks } from "./_ui/fleet/fleet-counts.tsx";
import { FleetRows } from "./_ui/fleet/fleet-rows.tsx";
import { groupRuns } from "./_ui/fleet/groups.ts";
import { isPhone } from "./_ui/fleet/phone.ts";
import { partWords } from "./_ui/fleet/view-words.ts";
import { Sheet } from "./_ui/sheet.tsx";
import { timeSpan } from "./_ui/time-span.ts";
import { viewerFormats } from "./_ui/viewer.ts";

export default async function FleetPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const view = readFleetAddress(await searchParams, { phone: isPhone(await headers()) });
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const [settings, fleet] = await Promise.all([readSettings(store), countUnits(store)]);
  if (fleet === 0) return <EmptyFleet settings={settings} known={await knownSoFar(store)} f={f} />;

  const now = new Date();
  const asOf = asOfDate(settings, now);
  const soonUntil = addMonths(asOf, settings.leadTimeMonths);
  const [counts, due, { rows, total }, groups, options, periods] = await Promise.all([
    fleetCounts(store, { part: view, soonUntil }),
    plannedDue(store, { part: view, soonUntil }),
    fleetPage(store, view),
    view.group === null ? null : fleetGroups(store, view, { group: view.group, soonUntil }),
    fleetOptions(store),
    depotPeriods(store),
  ]);
  const lastPage = Math.max(1, Math.ceil(total / view.pageSize));
  if (view.page > lastPage) redirect(fleetAddress(view, { page: lastPage }));

  const span = timeSpan(asOf, view.years);
  const before = (view.page - 1) * view.pageSize;
  const modelName = options.models.find(({ id }) => id === view.model)?.name ?? null;
  const finding = fleetFinding({
    f,
    counts,
    fleet,
    part: partWords(view, modelName),
    leadTimeMonths: settings.leadTimeMonths,
    whileClosed: dueWhileClosed(due, periods),
  });
  return (
    <div className="page">
      <h1 className="finding">{finding}</h1>
      <FleetCountLinks counts={counts} fleet={fleet} view={view} f={f}>
        <ChangedCount store={store} settings={settings} asOf={asOf} now={now} f={f} />
      </FleetCountLinks>
      <Sheet label="Units" long className="fleet-sheet">
        <FleetControls view={view} options={options} modelName={modelName} />
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
            runs={
              view.group === null || groups === null ? null : groupRuns(rows, groups, { grouping: view.group, before })
            }
            asOf={asOf}
            span={span}
            horizonEnd={addMonths(asOf, Math.round(12 * settings.horizonYears))}
            within={monthsInWords(settings.leadTimeMonths)}
            linesId="fleet-axis"
            weeks={depotWeeks(
              periods,
              rows.map((row) => row.depot),
              span,
            )}
          />
        )}
      </Sheet>
    </div>
  );
}
