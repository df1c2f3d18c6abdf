import type { ReactNode } from "react";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { compareAddress } from "../compare/address.ts";
import { engineAddress } from "../engines/address.ts";
import { roundAddress } from "../round/address.ts";
import { statusWords } from "../status-words.ts";
import { Term } from "../term.tsx";
import { testAddress } from "../test-sheet/address.ts";

/** Which unit this is, and the six facts that a reader asks first. */
export function UnitHead(props: {
  readonly report: UnitReport;
  /** The key of the engine now fitted; null: none is known. */
  readonly engine: string | null;
  readonly f: Formats;
}) {
  const { report, engine, f } = props;
  const { assessment, model } = report;
  const { meter, lastTestDate } = assessment;
  return (
    <header className="unit-head">
      <div>
        <nav aria-label="Way back" className="unit-way no-print">
          <AppLink href="/">Fleet</AppLink>
        </nav>
        <p className="unit-title">
          <span className="unit-number">{assessment.unit}</span>
          <BandMark band={assessment.band} tested={lastTestDate !== null} />
          {report.status !== "in-service" && <span className="tag">{statusWords[report.status]}</span>}
        </p>
        <p className="second">
          {[model.name ?? model.id, report.unitClass].filter(Boolean).join(" · ")}
          <AppLink href={testAddress(assessment.unit)} className="unit-sisters no-print">
            Enter a test
          </AppLink>
          {lastTestDate !== null && (
            <AppLink
              href={compareAddress({ units: [assessment.unit], measure: comparedMeasure(report) })}
              className="unit-sisters no-print"
            >
              Compare with its sisters
            </AppLink>
          )}
        </p>
      </div>
      <dl className="unit-facts">
        <Fact name="Depot">{report.depot ?? "not recorded"}</Fact>
        <Fact name="Engine">
          {engine === null ? (
            engineName(assessment.engineSerial)
          ) : (
            <AppLink href={engineAddress(engine)}>{engineName(assessment.engineSerial)}</AppLink>
          )}
        </Fact>
        <Fact name={<Term of="meter" shown="Meter" />}>{f.meter(meter.value, meter.unit)}</Fact>
        <Fact name={<Term of="usage" shown="Use" />}>{f.weeklyUse(meter.perDay, meter.unit)} a week</Fact>
        <Fact name="Last test">{lastTestDate === null ? "never" : f.date(lastTestDate)}</Fact>
        <Fact name="Next test due">
          {lastTestDate === null ? "now" : report.nextTestDue === null ? "no interval set" : f.date(report.nextTestDue)}
          {lastTestDate !== null && report.testOverdue && <span className="unit-overdue"> overdue</span>}
          {report.status !== "retired" && (
            <AppLink href={roundAddress({ depot: report.depot })} className="unit-round no-print">
              Test round
            </AppLink>
          )}
        </Fact>
      </dl>
    </header>
  );
}

const engineName = (serial: string | null) => (serial === null ? "no number recorded" : `no. ${serial}`);

/** Leak-down, unless the unit was only ever tested for compression. */
const comparedMeasure = ({ charts }: UnitReport) =>
  charts.find((chart) => chart.measure === "leak-down")?.measure ?? charts[0]?.measure ?? "leak-down";

function Fact({ name, children }: { readonly name: ReactNode; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
