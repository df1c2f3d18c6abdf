import type { EngineWithFittings } from "@/db/engines.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { listWords } from "@/lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { CsvLink } from "../csv-link.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import { ChecksTable } from "../unit/checks-table.tsx";
import { CourseChart } from "../unit/course-chart.tsx";
import { RepairsTable } from "../unit/repairs-table.tsx";
import { TestsTable } from "../unit/tests-table.tsx";
import { AircraftLine } from "../unit/unit-cautions.tsx";
import { axisWords, measureTitles } from "../unit/unit-words.ts";
import { WindowsTable } from "../unit/windows-table.tsx";
import { unitAddress } from "../unit-address.ts";
import { engineAddress } from "./address.ts";
import { engineName, stayNow } from "./engine-words.ts";
import { FittingsTable } from "./fittings-table.tsx";

/** An engine through all its units: where it was, its course, its tests and repairs. */
export function EngineView(props: {
  readonly engine: EngineWithFittings;
  /** Of the unit that it is in, else its own; null: it could not be assessed. */
  readonly report: UnitReport | null;
  readonly allTests: boolean;
  readonly f: Formats;
}) {
  const { engine, report, allTests, f } = props;
  const name = engineName(engine);
  const now = stayNow(engine);
  const of = `engine ${name}`;
  const address = engineAddress(engine.engine);
  const filesAt = `${address}/csv`;
  const charts = report?.charts.filter((chart) => chart.cylinders.some((c) => c.points.length > 0)) ?? [];
  return (
    <div className="page unit-page">
      <header className="unit-head">
        <div>
          <nav aria-label="Way back" className="unit-way no-print">
            <AppLink href="/engines">Engines</AppLink>
          </nav>
          <p className="unit-title">
            <span className="unit-number">{name}</span>
            {report !== null && (
              <BandMark band={report.assessment.band} tested={report.assessment.lastTestDate !== null} />
            )}
          </p>
          <p className="second">{report?.model.name ?? engine.engineModel}</p>
        </div>
      </header>
      <div className="unit-finding">
        <h1 className="finding">{whereWords(engine, f)}</h1>
        <div className="unit-sure">
          {report !== null && (
            <p>
              <strong>{now === null ? "When it was taken out." : `As told of ${now.unit}.`}</strong>{" "}
              {f.words(now === null ? `${report.place.title}: ${report.place.detail}.` : report.finding)}
            </p>
          )}
          {now !== null && (
            <p className="no-print">
              <AppLink href={unitAddress(now.unit)} variant="button">
                What to do next, and why
              </AppLink>
            </p>
          )}
        </div>
        {report?.model.aircraft === true && (
          <div className="unit-to-do">
            <AircraftLine />
          </div>
        )}
      </div>
      <Sheet
        title="Units that it was in"
        note="use counts on over all of them"
        controls={<CsvLink href={`${filesAt}/units`} of={`units of ${of}`} />}
        long
      >
        <FittingsTable engine={engine} xNow={report?.xNow ?? null} name={`Units of ${of}`} f={f} />
      </Sheet>
      {report === null || charts.length === 0 ? (
        <Sheet title="No chart yet">
          <EmptyState says={`No reading of ${of} is on file, so there is no line to draw.`} />
        </Sheet>
      ) : (
        charts.map((chart) => (
          <Sheet
            key={chart.measure}
            title={`${measureTitles[chart.measure]} of every cylinder, ${f.levelUnit(chart.unit)}`}
            note={`over ${axisWords(f.meterUnit(engine.meterUnit), false)}; T, B, C: repairs; S: fitted to another unit`}
          >
            <CourseChart
              report={report}
              chart={chart}
              chosen={null}
              label={`${measureTitles[chart.measure]} of ${of} through its units. All readings stand in the table of tests.`}
              f={f}
            />
          </Sheet>
        ))
      )}
      {report !== null && (
        <>
          {report.assessment.lastTestDate !== null && now !== null && (
            <WindowsTable report={report} filesAt={filesAt} f={f} />
          )}
          {report.tests.length > 0 && (
            <TestsTable
              report={report}
              of={of}
              filesAt={filesAt}
              isAll={allTests}
              addresses={{ all: `${address}?tests=all#tests`, latest: `${address}#tests` }}
              f={f}
            />
          )}
          <RepairsTable report={report} of={of} filesAt={filesAt} f={f} />
          {report.checks.length > 0 && <ChecksTable report={report} of={of} filesAt={filesAt} f={f} />}
        </>
      )}
    </div>
  );
}

/** Where the engine is, since when, and where it was before. */
function whereWords(engine: EngineWithFittings, f: Formats): string {
  const name = engineName(engine);
  const now = stayNow(engine);
  const before = listWords([...new Set(engine.fittings.filter((s) => s !== now).map((s) => s.unit))]);
  const earlier = before === "" ? "" : ` Before that it was in ${before}.`;
  if (now !== null) {
    return `Engine ${name} is in ${now.unit}${now.fromDate === null ? "" : ` since ${f.date(now.fromDate)}`}.${earlier}`;
  }
  const out = engine.fittings.at(-1)?.toDate ?? null;
  return `Engine ${name} is in no unit${out === null ? "" : ` since ${f.date(out)}`}: a float or a core.${before === "" ? "" : ` It was in ${before}.`}`;
}
