import type { Metadata } from "next";
import { asFleetPools, keptPools } from "@/app/_jobs/kept-pools.ts";
import { recordDue } from "@/app/_jobs/record-anew.ts";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { readRecordAddress } from "@/app/_ui/record/address.ts";
import { IssuedSheet } from "@/app/_ui/record/issued-sheet.tsx";
import { LevelsSheet } from "@/app/_ui/record/level-tables.tsx";
import { LimitsSheet } from "@/app/_ui/record/limits-sheet.tsx";
import { LookAgain } from "@/app/_ui/record/look-again.client.tsx";
import { MissesSheet } from "@/app/_ui/record/misses-sheet.tsx";
import { NoRecord } from "@/app/_ui/record/no-record.tsx";
import { recordFinding } from "@/app/_ui/record/record-words.ts";
import { ReliabilitySheet } from "@/app/_ui/record/reliability.tsx";
import { WidthsSheet } from "@/app/_ui/record/widths-sheet.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitNames } from "@/db/assessments.ts";
import { keptTrackRecord } from "@/db/track-record.ts";
import "@/app/_ui/record/record.css";

export const metadata: Metadata = { title: "Track record" };

export default async function RecordPage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const asked = readRecordAddress(await searchParams);
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const [kept, due, pools] = await Promise.all([keptTrackRecord(store), recordDue(store), keptPools(store)]);
  // What is kept of a fleet that is gone says nothing any more.
  const hasUnits = due === null || (await unitNames(store)).length > 0;
  const record = hasUnits ? kept?.record : undefined;
  const of = record?.levels.find(({ measure }) => measure === asked.measure) ?? record?.levels[0];
  if (record === undefined || of === undefined) return <NoRecord isMaking={due !== null && hasUnits} />;
  const view = { ...asked, measure: of.measure };
  const { units } = record;
  const judged =
    units.judged < units.known ? `${f.number(units.judged)} of ${f.number(units.known)}` : f.number(units.judged);
  return (
    <div className="page">
      <div>
        <h1 className="finding">{recordFinding(f, record)}</h1>
        <p className="second">
          {f.number(record.forecasts)} forecasts of {judged} units, made anew as of past tests with only what was known
          then, held against what came up to {f.date(record.asOf)}. {due !== null && <LookAgain />}
          {due !== null && <strong>Facts or settings have changed since: the record is being made anew.</strong>}
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
