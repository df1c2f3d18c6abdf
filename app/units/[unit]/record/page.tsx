import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { asOfDate, lastDateTaken } from "@/app/_jobs/as-of.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { type RecordKind, recordKinds, recordTitles } from "@/app/_ui/recording/address.ts";
import { DisposalHistory } from "@/app/_ui/recording/disposal-history.tsx";
import { EngineDesk } from "@/app/_ui/recording/engine-desk.client.tsx";
import { PhotosSheet } from "@/app/_ui/recording/photos-sheet.tsx";
import { RecordNav } from "@/app/_ui/recording/record-nav.tsx";
import { RepairDesk } from "@/app/_ui/recording/repair-desk.client.tsx";
import {
  CheckDesk,
  DisposalDesk,
  MeterDesk,
  NewMeterDesk,
  StatusDesk,
} from "@/app/_ui/recording/small-desks.client.tsx";
import { StatusHistory } from "@/app/_ui/recording/status-history.tsx";
import { SavedNote } from "@/app/_ui/saved-note.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { nameInAddress, unitAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { disposalHistory } from "@/db/disposal-history.ts";
import { engineNow } from "@/db/engines-now.ts";
import { photosOf, repairsOf } from "@/db/photos.ts";
import { readSettings } from "@/db/settings.ts";
import { statusHistory } from "@/db/status-history.ts";
import "@/app/_ui/styles/house.css";
import "@/app/_ui/recording/recording.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: `${(await params).unit}, record` };
}

const notes: Readonly<Record<RecordKind, string>> = {
  repair: "Each starts a new life for the parts that it renewed, and for no others.",
  check: "What was seen, measured or smelt beside the tests: it moves the shares of the causes.",
  meter: "Tells how hard the unit works, and so when a limit is met.",
  "new-meter": "Wear goes on where the old meter stood.",
  engine: "Wear follows the engine’s number, not the unit’s.",
  disposal: "When the unit is to be sold or scrapped: plan and budget count what may fall due until then alone.",
  status: "A person stops, releases and retires. Borecast keeps who and why.",
};

/** Forms by which people tell what happened to a unit. */
export default async function RecordPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  const store = await appStore();
  const report = unit === null ? null : await unitReport(store, unit);
  if (unit === null || report === null) notFound();
  const [settings, viewer, f, { what, kept }] = await Promise.all([
    readSettings(store),
    viewerName(),
    viewerFormats(),
    searchParams,
  ]);
  const kind = recordKinds.find((one) => one === what) ?? "repair";
  const now = new Date();
  const desk = {
    unit,
    cylinders: report.model.cylinders,
    meterUnit: report.assessment.meter.unit,
    today: asOfDate(settings, now),
    latest: lastDateTaken(settings, now),
  };
  const repairs = kind === "repair" && viewer !== null ? await repairsOf(store, unit) : [];
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href={unitAddress(unit)}>Back to {unit}</AppLink>
      </p>
      <h1 className="finding">
        Record of {unit}: {recordTitles[kind].toLowerCase()}
      </h1>
      <RecordNav unit={unit} here={kind} />
      {typeof kept === "string" && <SavedNote store={store} importId={kept} f={f} />}
      <Sheet title={recordTitles[kind]} note={notes[kind]}>
        <NameGate name={viewer}>
          {/* A record that was kept leaves a blank form. */}
          <div key={typeof kept === "string" ? kept : "first"}>
            {kind === "repair" && <RepairDesk {...desk} />}
            {kind === "check" && <CheckDesk {...desk} />}
            {kind === "meter" && <MeterDesk {...desk} />}
            {kind === "new-meter" && <NewMeterDesk {...desk} />}
            {kind === "engine" && <EngineDesk {...desk} serial={(await engineNow(store, unit))?.serial ?? null} />}
            {kind === "status" && <StatusDesk {...desk} now={report.status} />}
            {kind === "disposal" && <DisposalDesk unit={unit} planned={report.assessment.soldBefore?.date ?? null} />}
          </div>
        </NameGate>
        {kind === "status" && (
          <StatusHistory f={f} unit={unit} told={await statusHistory(store, unit)} timeZone={settings.timeZone} />
        )}
        {kind === "disposal" && (
          <DisposalHistory f={f} unit={unit} told={await disposalHistory(store, unit)} timeZone={settings.timeZone} />
        )}
      </Sheet>
      {repairs.length > 0 && <PhotosSheet f={f} repairs={repairs} photos={await photosOf(store, [unit])} />}
    </div>
  );
}
