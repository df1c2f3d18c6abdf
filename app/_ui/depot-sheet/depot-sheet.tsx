import type { NoteRow } from "@/db/notes.ts";
import { causeLabel } from "@/lib/cause/words.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { PrintButton } from "../print-button.client.tsx";
import { testAddress } from "../test-sheet/address.ts";
import type { Choice } from "../unit/choice.ts";
import { CourseChart } from "../unit/course-chart.tsx";
import { UnitCautions } from "../unit/unit-cautions.tsx";
import { measureTitles } from "../unit/unit-words.ts";
import { unitAddress } from "../unit-address.ts";
import { CylinderTable } from "./cylinder-table.tsx";
import { LastTests } from "./last-tests.tsx";

const causesTold = 3;
/** A cause with a smaller share has no room here. */
const worthReading = 0.05;
/** Steps told in full; of those after them the title must do. */
const stepsInFull = 2;
const notesTold = 2;
/** Longer notes end in an ellipsis: the page has them whole. */
const noteCharacters = 220;

/** One page of A4 about a unit for the depot: finding, what to do, why, the chart, the cylinders, and room to write. */
export function DepotSheet(props: {
  readonly report: UnitReport;
  readonly choice: Choice | null;
  /** Those that stand, the latest first. */
  readonly notes: readonly NoteRow[];
  readonly f: Formats;
}) {
  const { report, choice, notes, f } = props;
  const { assessment } = report;
  const chart = report.charts.find((c) => c.measure === choice?.measure);
  const told = new Set(assessment.inDoubt.map(({ words }) => words));
  const questions = assessment.questions.filter((question) => !told.has(question));
  const isLong = report.next.length > stepsInFull || notes.length > 0;
  return (
    <div className="page depot-page">
      <nav aria-label="Way back" className="depot-tools no-print">
        <AppLink href={unitAddress(assessment.unit)}>Back to {assessment.unit}</AppLink>
        <AppLink href={testAddress(assessment.unit)}>Enter a test</AppLink>
        <PrintButton />
      </nav>
      <article className="depot-sheet">
        <SheetHead report={report} f={f} />
        <h1 className="finding">{f.words(report.finding)}</h1>
        {report.together !== null && <p>{f.words(report.together)}</p>}
        {questions.map((question) => (
          <p key={question} className="depot-ask">
            <strong>Asks you.</strong> {f.words(question)}
          </p>
        ))}
        <div className="depot-pair">
          <section aria-labelledby="depot-next">
            <SheetSteps report={report} f={f} />
          </section>
          <div className="depot-cautions">
            <UnitCautions report={report} />
          </div>
          <div className="depot-why">
            <SheetCauses report={report} choice={choice} f={f} />
            <p className="second">
              <strong>How sure.</strong> {f.words(report.howSure)}
            </p>
          </div>
        </div>
        {chart !== undefined && choice !== null && (
          <section aria-labelledby="depot-chart" className="depot-chart">
            <h2 id="depot-chart">
              {measureTitles[chart.measure]} of every cylinder, {f.levelUnit(chart.unit)}; likely course of cylinder{" "}
              {choice.cylinder}
            </h2>
            <CourseChart
              report={report}
              chart={chart}
              chosen={choice.cylinder}
              label={`${measureTitles[chart.measure]} of every cylinder; the figures stand in the table below.`}
              f={f}
            />
          </section>
        )}
        {assessment.lastTestDate !== null && <CylinderTable report={report} f={f} />}
        {report.tests.length > 0 && <LastTests report={report} f={f} isLong={isLong} />}
        <section aria-labelledby="depot-notes" className="depot-notes">
          <h2 id="depot-notes">Notes</h2>
          {notes.slice(0, notesTold).map((note) => (
            <p key={note.id}>
              <strong>{f.date(note.date)}</strong> {shortened(note.text)} <span className="second">{note.by}</span>
            </p>
          ))}
          <div className="write-lines" aria-hidden="true" />
          <p className="depot-sign">
            <span>Done by, date</span>
            <span>Decided by, date</span>
          </p>
        </section>
      </article>
    </div>
  );
}

function SheetSteps({ report: { next }, f }: Pick<Parameters<typeof DepotSheet>[0], "report" | "f">) {
  return (
    <>
      <h2 id="depot-next">{next.length > 1 ? "Next, in this order" : "Next"}</h2>
      {next.length === 0 && <p>Nothing to do before the next test.</p>}
      <ol className="depot-next">
        {next.map((step, place) => (
          <li key={step.title}>
            <strong>{step.title}.</strong> {place < stepsInFull && f.words(step.detail)}
          </li>
        ))}
      </ol>
      {next.length > stepsInFull && <p className="second">The unit’s own page tells more of each step.</p>}
    </>
  );
}

function SheetHead({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const { assessment, model } = report;
  const { meter, lastTestDate } = assessment;
  const facts = [
    report.depot ?? "no depot",
    assessment.engineSerial === null ? "engine without number" : `engine ${assessment.engineSerial}`,
    f.meter(meter.value, meter.unit),
    `${f.weeklyUse(meter.perDay, meter.unit)} a week`,
    lastTestDate === null ? "never tested" : `last test ${f.date(lastTestDate)}`,
    ...(report.nextTestDue === null ? [] : [`next due ${f.date(report.nextTestDue)}`]),
  ];
  return (
    <header className="depot-head">
      <p className="unit-title">
        <span className="unit-number">{assessment.unit}</span>
        <BandMark band={assessment.band} tested={lastTestDate !== null} />
        <span className="second">{[model.name ?? model.id, report.unitClass].filter(Boolean).join(" · ")}</span>
      </p>
      <p>{facts.join(" · ")}</p>
    </header>
  );
}

function SheetCauses({ report, choice, f }: Pick<Parameters<typeof DepotSheet>[0], "report" | "choice" | "f">) {
  const cylinder = report.assessment.cylinders.find((c) => c.cylinder === choice?.cylinder);
  const causes = (cylinder?.causes ?? [])
    .filter(({ probability }) => probability >= worthReading)
    .toSorted((a, b) => b.probability - a.probability)
    .slice(0, causesTold);
  if (cylinder === undefined || cylinder.band === null || cylinder.band === "sound" || causes.length === 0) {
    return (
      <section aria-labelledby="depot-causes">
        <h2 id="depot-causes">Causes</h2>
        <p>Nothing to explain: no cylinder is on watch or worse.</p>
      </section>
    );
  }
  return (
    <section aria-labelledby="depot-causes">
      <h2 id="depot-causes">Causes, cylinder {cylinder.cylinder}</h2>
      <dl className="depot-causes">
        {causes.map(({ cause, probability, because, against }, place) => (
          <div key={cause}>
            <dt>
              {causeLabel(cause)} <strong>{f.probability(probability)}</strong>
            </dt>
            {because.slice(0, place === 0 ? 2 : 1).map((words) => (
              <dd key={words}>for: {f.words(words)}</dd>
            ))}
            {against.slice(0, 1).map((words) => (
              <dd key={words}>against: {f.words(words)}</dd>
            ))}
          </div>
        ))}
      </dl>
    </section>
  );
}

const shortened = (text: string): string =>
  text.length <= noteCharacters ? text : `${text.slice(0, noteCharacters).trimEnd()}…`;
