import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { asOfDate } from "@/app/_jobs/as-of.ts";
import { roundEntries, roundOf } from "@/app/_jobs/round-of.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { Paging } from "@/app/_ui/paging.tsx";
import { type RoundView, readRoundAddress, roundAddress, roundPageSize } from "@/app/_ui/round/address.ts";
import { RoundChoice } from "@/app/_ui/round/round-choice.tsx";
import { RoundRows } from "@/app/_ui/round/round-rows.client.tsx";
import { hoursNote, roundFinding } from "@/app/_ui/round/round-words.ts";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { TestCautions } from "@/app/_ui/test-cautions.tsx";
import { depotSheetsAddress } from "@/app/_ui/test-sheet/address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { depotSetups } from "@/db/depots.ts";
import { fleetOptions } from "@/db/fleet.ts";
import { countUnits } from "@/db/fleet-counts.ts";
import { readSettings } from "@/db/settings.ts";
import { workingDays } from "@/lib/round/test-hours.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import "@/app/_ui/round/round.css";

export const metadata: Metadata = { title: "Test round" };

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export default async function RoundPage({ searchParams }: Props) {
  const view = readRoundAddress(await searchParams);
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const [settings, fleet] = await Promise.all([readSettings(store), countUnits(store)]);
  if (fleet === 0) return <NothingYet />;

  const { depot, days } = view;
  const asOf = asOfDate(settings, new Date());
  const [round, { depots }, setups] = await Promise.all([
    roundOf(store, settings, { depot, days, asOf }),
    fleetOptions(store),
    depotSetups(store),
  ]);
  const total = round.units.length;
  const lastPage = Math.max(1, Math.ceil(total / roundPageSize));
  if (view.page > lastPage) redirect(roundAddress({ ...view, page: lastPage }));

  const from = (view.page - 1) * roundPageSize;
  const units = round.units.slice(from, from + roundPageSize);
  const entries = await roundEntries(store, settings, { until: round.until, units });
  const setup = depot === null ? blankDepotSetup : (setups.get(depot)?.setup ?? blankDepotSetup);
  return (
    <div className="page">
      <h1 className="finding">{roundFinding({ ...round, units: total, depot, days }, f)}</h1>
      <Sheet label="Units to test" long>
        <RoundChoice view={view} depots={depots} />
        {total === 0 ? (
          <NoneDue view={view} />
        ) : (
          <>
            <p className="sheet-note">
              {hoursNote(settings, workingDays(round.hours, setup), f)}{" "}
              <span className="no-print">
                Common practice, no source: <AppLink href="/settings">Settings</AppLink> changes it.{" "}
                {depot !== null && <AppLink href={depotSheetsAddress(depot, days / 7)}>Test sheets for paper</AppLink>}
              </span>
            </p>
            <RoundRows entries={entries} showDepot={depot === null} />
            <RoundPaging view={view} total={total} f={f} />
            <TestCautions />
          </>
        )}
      </Sheet>
    </div>
  );
}

function RoundPaging({ view, total, f }: { readonly view: RoundView; readonly total: number; readonly f: Formats }) {
  const from = (view.page - 1) * roundPageSize;
  const to = Math.min(total, from + roundPageSize);
  const at = (page: number) => roundAddress({ ...view, page });
  if (total <= roundPageSize) return null;
  return (
    <Paging
      says={`Units ${f.number(from + 1)} to ${f.number(to)} of ${f.number(total)}`}
      label="Pages of the round"
      steps={[
        { href: view.page > 1 ? at(view.page - 1) : null, says: "Back" },
        { href: to < total ? at(view.page + 1) : null, says: "Next" },
      ]}
    />
  );
}

function NothingYet() {
  return (
    <div className="page">
      <h1 className="finding">No unit is known yet, so none is due for a test.</h1>
      <Sheet label="What to do">
        <EmptyState says="Units come with a units file or with the first test results. Engine models or Settings tell how often they are tested.">
          <AppLink href="/import" variant="filled">
            Import files
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}

function NoneDue({ view }: { readonly view: RoundView }) {
  return (
    <EmptyState says="No test interval ends in this time, and no reading waits for a repeat. Engine models tell how often they are tested, and Settings for those that do not.">
      {(view.depot !== null || view.days !== 91) && (
        <AppLink variant="button" href={roundAddress({ days: 91 })}>
          Show all depots, 3 months ahead
        </AppLink>
      )}
    </EmptyState>
  );
}
