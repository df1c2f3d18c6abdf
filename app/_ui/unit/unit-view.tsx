import type { ReactNode } from "react";
import type { EngineWithFittings } from "@/db/engines.ts";
import type { PhotoRow } from "@/db/photos.ts";
import type { StatusTold } from "@/db/status-history.ts";
import type { SharedStep } from "@/lib/schema/comparison.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { UnitHistory } from "../changes/unit-history.tsx";
import { EmptyState } from "../empty-state.tsx";
import { engineNowIn } from "../engines/engine-words.ts";
import { RecordNav } from "../recording/record-nav.tsx";
import { StatusNote } from "../recording/status-note.tsx";
import type { ToldStep } from "../recording/told-steps.ts";
import type { WithdrawnTest } from "../recording/withdrawn.ts";
import { WithdrawnTests } from "../recording/withdrawn-tests.tsx";
import { Sheet } from "../sheet.tsx";
import { unitFilesAddress } from "../unit-address.ts";
import { ChecksTable } from "./checks-table.tsx";
import type { Choice } from "./choice.ts";
import { CylinderCards } from "./cylinder-cards.tsx";
import { EarlyWarnings } from "./early-warnings.tsx";
import { EnginesSheet } from "./engines-sheet.tsx";
import { NotesSheet, type NotesShown } from "./notes-sheet.tsx";
import { type LeadTime, PastLimitSheet } from "./past-limit-sheet.tsx";
import { RepairsTable } from "./repairs-table.tsx";
import { testsAddress } from "./tests-address.ts";
import { TestsTable } from "./tests-table.tsx";
import { trendSeries } from "./trend-series.ts";
import { TrendSheet } from "./trend-sheet.tsx";
import { trendSource } from "./trend-source.ts";
import { UnitCauses } from "./unit-causes.tsx";
import { UnitFinding } from "./unit-finding.tsx";
import { UnitHead } from "./unit-head.tsx";
import { UseSheet } from "./use-sheet.tsx";
import { WindowsTable } from "./windows-table.tsx";

/** The Unit page: finding, what to do, then drawings, then tables, then what people wrote. */
export function UnitView(props: {
  readonly report: UnitReport;
  readonly choice: Choice | null;
  readonly allTests: boolean;
  readonly lead: LeadTime;
  readonly engines: readonly EngineWithFittings[];
  readonly notes: NotesShown;
  readonly photos: readonly PhotoRow[];
  /** Latest first. */
  readonly statuses: readonly StatusTold[];
  readonly withdrawn: readonly WithdrawnTest[];
  /** Steps that the unit took together with others, by their instrument or depot. */
  readonly sharedSteps: readonly SharedStep[];
  /** The windows with the doubtful tests and without them; nothing where none is doubtful. */
  readonly withAndWithout: ReactNode;
  readonly history: (test: UnitReport["tests"][number]) => readonly ToldStep[];
  readonly f: Formats;
}) {
  const {
    report,
    choice,
    allTests,
    lead,
    engines,
    notes,
    photos,
    statuses,
    withdrawn,
    sharedSteps,
    withAndWithout,
    history,
    f,
  } = props;
  const { unit } = report.assessment;
  const filesAt = unitFilesAddress(unit);
  const shared = { report, of: unit, filesAt, f };
  return (
    <div className="page unit-page">
      <UnitHead report={report} engine={engineNowIn(unit, engines)?.engine ?? null} f={f} />
      <StatusNote status={report.status} told={statuses} timeZone={notes.timeZone} f={f} />
      <RecordNav unit={unit} />
      <UnitFinding report={report} steps={sharedSteps} f={f} />
      {choice === null ? <NothingToDraw report={report} /> : <Drawings report={report} choice={choice} f={f} />}
      <EarlyWarnings report={report} f={f} />
      {report.assessment.lastTestDate !== null && <WindowsTable report={report} filesAt={filesAt} f={f} />}
      {withAndWithout}
      {report.tests.length > 0 && (
        <TestsTable
          {...shared}
          isAll={allTests}
          history={history}
          addresses={{ all: testsAddress(unit, choice, true), latest: testsAddress(unit, choice, false) }}
        />
      )}
      <WithdrawnTests tests={withdrawn} f={f} timeZone={notes.timeZone} />
      <div className="unit-pair">
        <RepairsTable {...shared} photos={photos} />
        <PastLimitSheet report={report} lead={lead} filesAt={filesAt} f={f} />
      </div>
      {report.checks.length > 0 && <ChecksTable {...shared} />}
      <div className="unit-halves">
        <UseSheet report={report} filesAt={filesAt} f={f} />
        {engines.length > 0 && <EnginesSheet report={report} engines={engines} filesAt={filesAt} f={f} />}
      </div>
      <UnitHistory unit={unit} />
      <NotesSheet unit={unit} f={f} {...notes} />
    </div>
  );
}

function Drawings({ report, choice, f }: { report: UnitReport; choice: Choice; f: Formats }) {
  const chart = report.charts.find((c) => c.measure === choice.measure);
  const cylinder = report.assessment.cylinders.find((c) => c.cylinder === choice.cylinder);
  if (chart === undefined || cylinder === undefined) throw new Error("the choice is not of this report");
  const referred = trendSeries(trendSource(report, { ...choice, values: "referred" }));
  const shared = { report, chart, choice, referred, f };
  return (
    <>
      <div className="unit-pair">
        <TrendSheet {...shared} cylinder={cylinder} />
        <UnitCauses
          unit={report.assessment.unit}
          of={cylinder}
          settling={report.settles.find((s) => s.cylinder === cylinder.cylinder) ?? null}
          f={f}
        />
      </div>
      <CylinderCards {...shared} />
    </>
  );
}

function NothingToDraw({ report }: { readonly report: UnitReport }) {
  const { leakDown } = report.model;
  const first = leakDown === undefined ? "compression test" : "leak-down test";
  return (
    <Sheet title="No chart yet">
      <EmptyState
        says={`No reading of ${report.assessment.unit} is on file, so there is no line to draw. A first ${first} gives the level of each cylinder; three tests give a rate and a range.`}
      >
        <AppLink href="/import" variant="button">
          Import test results
        </AppLink>
      </EmptyState>
    </Sheet>
  );
}
