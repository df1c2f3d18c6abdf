import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { asOfDate, lastDateTaken } from "@/app/_jobs/as-of.ts";
import { isSheetOf } from "@/app/_jobs/send-test-sheet.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { NeedsScript } from "@/app/_ui/needs-script.tsx";
import { TestCautions } from "@/app/_ui/test-cautions.tsx";
import { paperAddress } from "@/app/_ui/test-sheet/address.ts";
import { SentTest } from "@/app/_ui/test-sheet/sent-test.tsx";
import { TestDesk } from "@/app/_ui/test-sheet/test-desk.client.tsx";
import { typedNames } from "@/app/_ui/unit/typed-names.ts";
import { AircraftLine } from "@/app/_ui/unit/unit-cautions.tsx";
import { nameInAddress, unitAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { unitIssues } from "@/db/changes.ts";
import { depotOverviews } from "@/db/depot-overview.ts";
import { importDetail } from "@/db/imports.ts";
import { readSettings } from "@/db/settings.ts";
import { testSheetFacts } from "@/lib/test-entry/sheet-facts.ts";
import "@/app/_ui/test-sheet/test-sheet.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** Assessments among which the one that a test led to is looked for: a unit has few in the time that a sheet is looked at. */
const issuesLookedAt = 30;

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: `${(await params).unit}, enter a test` };
}

/** Where a test of one unit is entered at the engine; with `?sent=`, what a test that was sent says. */
export default async function TestPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  const store = await appStore();
  const report = unit === null ? null : await unitReport(store, unit);
  if (unit === null || report === null) notFound();
  const [depots, settings, viewer, formats, { sent: asked }] = await Promise.all([
    depotOverviews(store),
    readSettings(store),
    viewerName(),
    viewerFormats(),
    searchParams,
  ]);
  const f = formats.knowing(typedNames(report));
  const told = typeof asked === "string" ? await importDetail(store, asked) : null;
  const sent = told !== null && isSheetOf(told, unit) ? told : null;
  const facts = testSheetFacts(report, {
    altitudeM: depots.find(({ depot }) => depot === report.depot)?.altitudeM ?? null,
  });
  const now = new Date();
  return (
    <div className="page test-page">
      <nav aria-label="Way back" className="test-way no-print">
        <AppLink href={unitAddress(unit)}>{unit}</AppLink>
        <AppLink href={paperAddress(unit)}>Sheet for paper</AppLink>
      </nav>
      <h1 className="finding">
        {sent === null ? "Enter a test of" : "The test of"} {unit}
        <span className="second test-of">{[facts.modelName, report.depot].filter(Boolean).join(" · ")}</span>
      </h1>
      <NeedsScript />
      {sent === null ? (
        <NameGate name={viewer}>
          <TestDesk
            facts={facts}
            viewer={viewer ?? ""}
            today={asOfDate(settings, now)}
            latest={lastDateTaken(settings, now)}
            cautions={
              <>
                <TestCautions />
                {facts.aircraft && <AircraftLine />}
              </>
            }
          />
        </NameGate>
      ) : (
        <SentTest
          report={report}
          sent={sent}
          issues={await unitIssues(store, unit, issuesLookedAt)}
          settings={settings}
          f={f}
        />
      )}
    </div>
  );
}
