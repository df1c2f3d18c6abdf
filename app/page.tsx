import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { appStore } from "../db/app-store.ts";
import { depotPeriods } from "../db/depots.ts";
import { modelNameOf } from "../db/fleet.ts";
import { countUnits, fleetCounts, plannedDue } from "../db/fleet-counts.ts";
import { knownSoFar } from "../db/known-so-far.ts";
import { isBehindFacts } from "../db/meta.ts";
import { readSettings } from "../db/settings.ts";
import { addMonths } from "../lib/calendar.ts";
import { asOfDate } from "./_jobs/as-of.ts";
import { AppLink } from "./_ui/app-link.client.tsx";
import { ChangedCount } from "./_ui/changes/changed-count.tsx";
import { type AddressParts, fleetAddress, isPart, readFleetAddress } from "./_ui/fleet/address.ts";
import { countOf } from "./_ui/fleet/count-of.ts";
import { dueWhileClosed } from "./_ui/fleet/depot-weeks.ts";
import { EmptyFleet } from "./_ui/fleet/empty-fleet.tsx";
import { fleetFinding } from "./_ui/fleet/finding.ts";
import { ChangedWait, FleetCountLinks } from "./_ui/fleet/fleet-counts.tsx";
import { FleetSheet } from "./_ui/fleet/fleet-sheet.tsx";
import { isPhone } from "./_ui/fleet/phone.ts";
import { partWords } from "./_ui/fleet/view-words.ts";
import { Later } from "./_ui/later.tsx";
import { viewerFormats } from "./_ui/viewer.ts";

export default async function FleetPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const view = readFleetAddress(await searchParams, { phone: isPhone(await headers()) });
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const [settings, fleet] = await Promise.all([readSettings(store), countUnits(store)]);
  if (fleet === 0) return <EmptyFleet settings={settings} known={await knownSoFar(store)} f={f} />;

  const now = new Date();
  const asOf = asOfDate(settings, now);
  const soonUntil = addMonths(asOf, settings.leadTimeMonths);
  // What the counts hang on, and nothing else: pages and columns ask for the same.
  const part = { search: view.search, depot: view.depot, model: view.model };
  const [counts, due, periods, modelName, left] = await Promise.all([
    fleetCounts(store, { part, soonUntil }),
    plannedDue(store, { part, soonUntil }),
    depotPeriods(store),
    view.model === null ? null : modelNameOf(store, view.model),
    isBehindFacts(store),
  ]);
  const total = countOf(counts, view.band);
  const lastPage = Math.max(1, Math.ceil(total / view.pageSize));
  if (view.page > lastPage) redirect(fleetAddress(view, { page: lastPage }));

  const finding = fleetFinding({
    f,
    counts,
    fleet,
    part: partWords(view, modelName),
    leadTimeMonths: settings.leadTimeMonths,
    whileClosed: dueWhileClosed(due, periods),
  });
  const shared = { store, settings, asOf, f };
  return (
    <div className="page">
      <h1 className="finding">{finding}</h1>
      <FleetCountLinks counts={counts} fleet={fleet} view={view} f={f}>
        <Later meanwhile={<ChangedWait />}>
          <ChangedCount {...shared} now={now} besidePart={isPart(view)} />
        </Later>
      </FleetCountLinks>
      {left && (
        <p className="left-over">
          Some units are still told by what was in force before: they are being assessed, or wait for it.{" "}
          <AppLink href="/settings">Settings</AppLink> has a button that assesses them now.
        </p>
      )}
      <FleetSheet {...shared} view={view} soonUntil={soonUntil} modelName={modelName} />
    </div>
  );
}
