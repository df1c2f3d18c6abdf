import type { Metadata } from "next";
import { asFleetPools, keptPools } from "@/app/_jobs/kept-pools.ts";
import { askForRecord, recordStanding } from "@/app/_jobs/track-record-upkeep.ts";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { LookAgain } from "@/app/_ui/look-again.client.tsx";
import { readRecordAddress } from "@/app/_ui/record/address.ts";
import { IssuedSheet } from "@/app/_ui/record/issued-sheet.tsx";
import { LevelsSheet } from "@/app/_ui/record/level-tables.tsx";
import { LimitsSheet } from "@/app/_ui/record/limits-sheet.tsx";
import { MissesSheet } from "@/app/_ui/record/misses-sheet.tsx";
import { NoRecord } from "@/app/_ui/record/no-record.tsx";
import { madeFromWords, recordFinding } from "@/app/_ui/record/record-words.ts";
import { ReliabilitySheet } from "@/app/_ui/record/reliability.tsx";
import { standingWords } from "@/app/_ui/record/standing-words.ts";
import { WidthsSheet } from "@/app/_ui/record/widths-sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { whenWords } from "@/app/_ui/when.ts";
import { appStore } from "@/db/app-store.ts";
import { unitNames } from "@/db/assessments.ts";
import { readSettings } from "@/db/settings.ts";
import { keptTrackRecord } from "@/db/track-record.ts";
import "@/app/_ui/record/record.css";

export const metadata: Metadata = { title: "Track record" };

export default async function RecordPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const asked = readRecordAddress(await searchParams);
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  askForRecord(store, new Date());
  const [kept, told, pools, settings] = await Promise.all([
    keptTrackRecord(store),
    recordStanding(store),
    keptPools(store),
    readSettings(store),
  ]);
  // What is kept of a fleet that is gone says nothing any more, and there is nothing to be made.
  const hasUnits = told.state === "current" || (await unitNames(store)).length > 0;
  const standing = hasUnits ? told : ({ state: "current" } as const);
  const when = (instant: Date) => whenWords(f, settings.timeZone, instant.toISOString());
  const record = hasUnits ? kept?.record : undefined;
  const of = record?.levels.find(({ measure }) => measure === asked.measure) ?? record?.levels[0];
  if (record === undefined || of === undefined) return <NoRecord standing={standing} when={when} />;
  const { beside, isSoon } = standingWords(standing, when);
  const view = { ...asked, measure: of.measure };
  return (
    <div className="page">
      <div>
        <h1 className="finding">{recordFinding(f, record)}</h1>
        <p className="second">
          {madeFromWords(f, record)} {isSoon && <LookAgain />}
          {beside !== "" && <strong>{beside}</strong>}
        </p>
        <Terms of={["level", "baseline", "forecast-range", "pinball-score", "brier-score"]} />
      </div>
      <LevelsSheet f={f} record={record} of={of} view={view} />
      <ReliabilitySheet f={f} record={record} />
      <LimitsSheet f={f} record={record} />
      <WidthsSheet f={f} record={record} inForce={asFleetPools(pools).widths ?? []} />
      <MissesSheet f={f} record={record} />
      {record.issued !== null && <IssuedSheet f={f} issued={record.issued} />}
    </div>
  );
}
