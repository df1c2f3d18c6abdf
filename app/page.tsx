import { redirect } from "next/navigation";
import { appStore } from "../db/app-store.ts";
import { fleetCounts, fleetOptions, fleetPage } from "../db/fleet.ts";
import { readSettings } from "../db/settings.ts";
import { addMonths } from "../lib/calendar.ts";
import { asOfDate } from "./_jobs/as-of.ts";
import { AppLink } from "./_ui/app-link.client.tsx";
import { EmptyState } from "./_ui/empty-state.tsx";
import { type AddressParts, fleetAddress, isFiltered, readFleetAddress } from "./_ui/fleet/address.ts";
import { EmptyFleet } from "./_ui/fleet/empty-fleet.tsx";
import { FilterForm } from "./_ui/fleet/filter-form.client.tsx";
import { fleetFinding } from "./_ui/fleet/finding.ts";
import { FleetBlocks } from "./_ui/fleet/fleet-blocks.tsx";
import { FleetCountLinks } from "./_ui/fleet/fleet-counts.tsx";
import { FleetPaging } from "./_ui/fleet/fleet-paging.tsx";
import { FleetTable } from "./_ui/fleet/fleet-table.tsx";
import { SpanChoice } from "./_ui/fleet/span-choice.tsx";
import { WindowKey } from "./_ui/fleet/window-key.tsx";
import { Sheet } from "./_ui/sheet.tsx";
import { AxisLines } from "./_ui/time-axis.tsx";
import { timeSpan } from "./_ui/time-span.ts";
import { WindowInk } from "./_ui/window-glyph.tsx";

export default async function FleetPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const view = readFleetAddress(await searchParams);
  const store = await appStore();
  const settings = await readSettings(store);
  const asOf = asOfDate(settings, new Date());
  const counts = await fleetCounts(store, addMonths(asOf, settings.leadTimeMonths));
  if (counts.all === 0) return <EmptyFleet settings={settings} />;

  const [{ rows, total }, options] = await Promise.all([fleetPage(store, view), fleetOptions(store)]);
  const lastPage = Math.max(1, Math.ceil(total / view.pageSize));
  if (view.page > lastPage) redirect(fleetAddress(view, { page: lastPage }));

  const shown = {
    rows,
    view,
    asOf,
    span: timeSpan(asOf, view.years),
    horizonEnd: addMonths(asOf, Math.round(12 * settings.horizonYears)),
    linesId: "fleet-axis",
  };
  const modelOnly = rows.some((row) =>
    [row.topEnd, row.bottomEnd].some((dates) => dates.status === "too-few-tests" && dates.p10 !== null),
  );
  return (
    <div className="page">
      <h1 className="finding">{fleetFinding(counts, settings.leadTimeMonths)}</h1>
      <FleetCountLinks counts={counts} view={view} />
      <Sheet label="Units" long className="fleet-sheet">
        <div className="fleet-controls no-print">
          <FilterForm view={view} options={options} />
          <SpanChoice view={view} />
        </div>
        {rows.length === 0 ? (
          <EmptyState says="No unit matches this search and these filters.">
            {isFiltered(view) && (
              <AppLink variant="button" href={fleetAddress(view, { search: "", band: null, depot: null, model: null })}>
                Show all units
              </AppLink>
            )}
          </EmptyState>
        ) : (
          <>
            <WindowInk />
            <AxisLines id={shown.linesId} span={shown.span} />
            <WindowKey modelOnly={modelOnly} />
            <FleetTable {...shown} />
            <FleetBlocks {...shown} />
            <FleetPaging view={view} total={total} />
          </>
        )}
      </Sheet>
    </div>
  );
}
