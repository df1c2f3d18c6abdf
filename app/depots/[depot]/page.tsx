import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { asOfDate } from "@/app/_jobs/as-of.ts";
import { runningJobs } from "@/app/_jobs/job-registry.ts";
import { altitudeVersion } from "@/app/_jobs/save-altitude.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { AltitudeDesk } from "@/app/_ui/depots/altitude-desk.client.tsx";
import { readAltitude } from "@/app/_ui/depots/altitude-form.ts";
import { AltitudeHistory } from "@/app/_ui/depots/altitude-history.tsx";
import { depotFields } from "@/app/_ui/depots/depot-fields.ts";
import { DepotForm } from "@/app/_ui/depots/depot-form.client.tsx";
import { DepotHistory } from "@/app/_ui/depots/depot-history.tsx";
import { DepotUnits } from "@/app/_ui/depots/depot-units.tsx";
import { altitudeFinding, calendarNow, capacityWords, metres } from "@/app/_ui/depots/depot-words.ts";
import { StripInk, YearStrip } from "@/app/_ui/depots/year-strip.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { depotSheetsAddress } from "@/app/_ui/test-sheet/address.ts";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { altitudeHistory, depotOverviews } from "@/db/depot-overview.ts";
import { depotHistory } from "@/db/depots.ts";
import { readSettings } from "@/db/settings.ts";
import { isoWeek } from "@/lib/calendar.ts";
import { blankDepotSetup } from "@/lib/schema/depot.ts";
import { sentenceWords } from "@/lib/wording.ts";
import "@/app/_ui/styles/house.css";

interface Props {
  readonly params: Promise<{ readonly depot: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

// Next hands the parameter to the page as it stands in the address, but to the title's function decoded.
export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: (await params).depot };
}

export default async function DepotPage({ params, searchParams }: Props) {
  const name = nameInAddress((await params).depot);
  const store = await appStore();
  const [overviews, settings, f, viewer] = await Promise.all([
    depotOverviews(store),
    readSettings(store),
    viewerFormats(),
    viewerName(),
  ]);
  const found = overviews.find(({ depot }) => depot === name);
  if (found === undefined) notFound();
  const { depot, altitudeM, units, change } = found;
  const [told, { altitude: given }] = await Promise.all([altitudeHistory(store, depot), searchParams]);
  const putBack = typeof given === "string" && typeof readAltitude(given) === "number" ? given : null;
  const asOf = asOfDate(settings, new Date());
  const setup = change?.setup ?? blankDepotSetup;
  const now = calendarNow(f, setup.periods, asOf).words;
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href="/depots">All depots</AppLink>
      </p>
      <h1 className="finding">{altitudeFinding(f, depot, altitudeM)}</h1>
      {setup.retired && (
        <p>
          <span className="tag">retired</span> No longer used; what was tested here still counts.
        </p>
      )}
      <Terms of={["peak-week", "blackout-week", "bay-day"]} />
      <DepotUnits f={f} depot={depot} units={units} />
      <p className="no-print">
        <AppLink href={depotSheetsAddress(depot)}>Test sheets for paper, of the units that are due</AppLink>
      </p>
      <Sheet title="Its year" {...(now === "" ? {} : { note: sentenceWords(now) })}>
        <StripInk />
        <YearStrip f={f} periods={setup.periods} asOf={asOf} />
      </Sheet>
      <Sheet title="What it has, and when it works" className="no-print">
        <NameGate name={viewer} told={<p>{sentenceWords(capacityWords(f, setup) || "nothing told yet")}.</p>}>
          <DepotForm depot={depot} fields={depotFields(setup)} after={change?.id ?? null} year={isoWeek(asOf).year} />
        </NameGate>
      </Sheet>
      <Sheet
        title="Altitude"
        note={
          altitudeM === null
            ? "Not known: compression is read as at sea level, with a wider error."
            : metres(f, altitudeM)
        }
        long
      >
        <div className="no-print altitude-desk">
          <NameGate name={viewer}>
            <AltitudeDesk
              key={putBack ?? "form"}
              depot={depot}
              known={altitudeM === null ? "" : String(altitudeM)}
              putBack={putBack}
              seen={altitudeVersion(told)}
              job={runningJobs().find(({ kind }) => kind === "altitude")?.id ?? null}
            />
          </NameGate>
        </div>
        <AltitudeHistory
          f={f}
          depot={depot}
          told={told}
          known={altitudeM}
          timeZone={settings.timeZone}
          mayChange={viewer !== null}
        />
      </Sheet>
      <DepotHistory
        f={f}
        depot={depot}
        history={await depotHistory(store, depot)}
        timeZone={settings.timeZone}
        mayChange={viewer !== null}
      />
    </div>
  );
}
