import type { Metadata } from "next";
import { asOfDate } from "@/app/_jobs/as-of.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { CsvLink } from "@/app/_ui/csv-link.tsx";
import { depotAddress } from "@/app/_ui/depots/address.ts";
import { DepotUnits } from "@/app/_ui/depots/depot-units.tsx";
import { airWords, calendarNow, capacityWords, metres } from "@/app/_ui/depots/depot-words.ts";
import { depotsFinding } from "@/app/_ui/depots/depots-finding.ts";
import { NewDepotForm } from "@/app/_ui/depots/new-depot.client.tsx";
import { StripInk, YearStrip } from "@/app/_ui/depots/year-strip.tsx";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { type DepotOverview, depotOverviews } from "@/db/depot-overview.ts";
import { readSettings } from "@/db/settings.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import type { IsoDate } from "@/lib/schema/facts.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import "@/app/_ui/styles/house.css";

export const metadata: Metadata = { title: "Depots" };

export default async function DepotsPage() {
  const store = await appStore();
  const [settings, depots, f, viewer] = await Promise.all([
    readSettings(store),
    depotOverviews(store),
    viewerFormats(),
    viewerName(),
  ]);
  const asOf = asOfDate(settings, new Date());
  const isRetired = ({ change }: DepotOverview) => change?.setup.retired === true;
  const inUse = depots.filter((depot) => !isRetired(depot));
  const retired = depots.filter(isRetired);
  if (depots.length === 0) return <NoDepots viewer={viewer} />;
  return (
    <div className="page">
      <h1 className="finding">{depotsFinding(f, inUse, asOf)}</h1>
      <Terms of={["peak-week", "blackout-week", "bay-day"]} />
      <Sheet
        title="Depots"
        note="Open one to change its altitude, what it has to work with, and its weeks."
        controls={<CsvLink href="/depots.csv" of="all depots" />}
        long
      >
        <StripInk />
        <ul className="thing-list">
          {inUse.map((depot) => (
            <DepotLine key={depot.depot} f={f} asOf={asOf} {...depot} />
          ))}
        </ul>
        {inUse.length === 0 && <p>All depots are retired.</p>}
      </Sheet>
      {retired.length > 0 && (
        <Sheet title="Retired" note="No longer used; what was tested there still counts." long>
          <ul className="thing-list">
            {retired.map((depot) => (
              <DepotLine key={depot.depot} f={f} asOf={asOf} {...depot} />
            ))}
          </ul>
        </Sheet>
      )}
      <AddDepot viewer={viewer} />
    </div>
  );
}

function AddDepot({ viewer }: { readonly viewer: string | null }) {
  return (
    <Sheet title="Add a depot" note="before a file names it; files that name it later are its own" className="no-print">
      <NameGate name={viewer}>
        <NewDepotForm />
      </NameGate>
    </Sheet>
  );
}

function DepotLine(props: DepotOverview & { readonly f: Formats; readonly asOf: IsoDate }) {
  const { f, asOf, depot, altitudeM, units, change } = props;
  const setup = change?.setup ?? blankDepotSetup;
  const capacity = capacityWords(f, setup);
  const now = calendarNow(f, setup.periods, asOf).words;
  return (
    <li className="keep-together">
      <div className="thing-says">
        <h3>
          <AppLink href={depotAddress(depot)}>{depot}</AppLink>
        </h3>
        {altitudeM === null ? (
          <p>Altitude not known: read as at sea level, with a wider error.</p>
        ) : (
          <p>
            {metres(f, altitudeM)}: {airWords(f, altitudeM)}.
          </p>
        )}
        <DepotUnits f={f} depot={depot} units={units} />
        <p className="second">{capacity === "" ? "Bays and technicians are not told." : `${capacity}.`}</p>
      </div>
      <div>
        {now !== "" && <p className="depot-now">{sentenceWords(now)}</p>}
        <YearStrip f={f} periods={setup.periods} asOf={asOf} />
      </div>
    </li>
  );
}

function NoDepots({ viewer }: { readonly viewer: string | null }) {
  return (
    <div className="page">
      <h1 className="finding">No depot is known yet.</h1>
      <EmptyState says="A depot appears with the first file that names it: a depots file with its altitude, a units file, or results.">
        <AppLink href="/import" variant="filled">
          Import files
        </AppLink>
      </EmptyState>
      <AddDepot viewer={viewer} />
    </div>
  );
}
