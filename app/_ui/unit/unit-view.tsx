import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import type { Choice } from "./choice.ts";
import { CylinderCards } from "./cylinder-cards.tsx";
import { type LeadTime, PastLimitSheet } from "./past-limit-sheet.tsx";
import { RepairsTable } from "./repairs-table.tsx";
import { TestsTable } from "./tests-table.tsx";
import { TrendSheet } from "./trend-sheet.tsx";
import { UnitCauses } from "./unit-causes.tsx";
import { UnitFinding } from "./unit-finding.tsx";
import { UnitHead } from "./unit-head.tsx";
import { WindowsTable } from "./windows-table.tsx";

/** The Unit page: finding, what to do, then drawings, then tables. */
export function UnitView(props: {
  readonly report: UnitReport;
  readonly choice: Choice | null;
  readonly lead: LeadTime;
  readonly f: Formats;
}) {
  const { report, choice, lead, f } = props;
  return (
    <div className="page unit-page">
      <UnitHead report={report} />
      <UnitFinding report={report} />
      {choice === null ? <NothingToDraw report={report} /> : <Drawings report={report} choice={choice} f={f} />}
      {report.assessment.lastTestDate !== null && <WindowsTable report={report} />}
      {report.tests.length > 0 && <TestsTable report={report} />}
      <div className="unit-pair">
        <RepairsTable report={report} />
        <PastLimitSheet report={report} lead={lead} f={f} />
      </div>
    </div>
  );
}

function Drawings(props: { readonly report: UnitReport; readonly choice: Choice; readonly f: Formats }) {
  const { report, choice, f } = props;
  const chart = report.charts.find((c) => c.measure === choice.measure);
  const cylinder = report.assessment.cylinders.find((c) => c.cylinder === choice.cylinder);
  if (chart === undefined || cylinder === undefined) throw new Error("the choice is not of this report");
  const shared = { report, chart, choice, f };
  return (
    <>
      <div className="unit-pair">
        <TrendSheet {...shared} cylinder={cylinder} />
        <UnitCauses of={cylinder} />
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
