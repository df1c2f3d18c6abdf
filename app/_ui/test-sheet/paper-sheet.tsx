import { unitOf } from "@/lib/assessment/rounding.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Measure } from "@/lib/schema/words.ts";
import { places } from "@/lib/schema/words.ts";
import { setUpQuestions } from "@/lib/test-entry/set-up.ts";
import type { MeasureFacts, SheetFacts } from "@/lib/test-entry/sheet-facts.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { TestCautions } from "../test-cautions.tsx";
import { AircraftLine } from "../unit/unit-cautions.tsx";
import { measureTitles } from "../unit/unit-words.ts";
import { heardWords } from "./test-words.ts";

/** More cylinders than this, and each kind of test has a page of its own. */
const cylindersOnAPage = 6;

/** One unit's test sheet for paper: cautions, set-up to tick off, and empty fields beside the last values. */
export function PaperSheet(props: {
  readonly report: UnitReport;
  readonly facts: SheetFacts;
  readonly tests: readonly Measure[];
  readonly f: Formats;
}) {
  const { report, facts, tests, f } = props;
  const wanted = facts.tests.filter(({ test }) => tests.includes(test));
  const pages = facts.cylinders > cylindersOnAPage ? wanted.map((of) => [of]) : [wanted];
  return pages.map((page) => (
    <article
      key={page.map(({ test }) => test).join()}
      className="paper-sheet"
      aria-label={`Test sheet of ${facts.unit}`}
    >
      <PaperHead report={report} facts={facts} f={f} />
      <TestCautions />
      {facts.aircraft && <AircraftLine />}
      {page.map((of) => (
        <PaperTest key={of.test} facts={facts} of={of} f={f} />
      ))}
      <div className="paper-notes">
        <h3>Notes</h3>
        <div className="write-lines" aria-hidden="true" />
      </div>
    </article>
  ));
}

function PaperHead({ report, facts, f }: Omit<Parameters<typeof PaperSheet>[0], "tests">) {
  const { assessment, nextTestDue } = report;
  return (
    <header className="paper-head">
      <p className="unit-title">
        <span className="unit-number">{facts.unit}</span>
        <span className="second">
          {[
            facts.modelName,
            facts.depot,
            assessment.engineSerial === null ? null : `engine ${assessment.engineSerial}`,
            assessment.lastTestDate === null ? "never tested" : `last test ${f.date(assessment.lastTestDate)}`,
            nextTestDue === null || assessment.lastTestDate === null ? null : `due ${f.date(nextTestDue)}`,
          ]
            .filter(Boolean)
            .join(" · ")}
        </span>
      </p>
      <p className="paper-fields">
        <Field name="Day" />
        {/* As the meter itself shows it, whatever the viewer reads distances in. */}
        <Field name={`Meter, ${facts.meter.unit} (about ${f.number(facts.meter.value)})`} />
        <Field name="Tested by" />
      </p>
    </header>
  );
}

const Field = ({ name }: { readonly name: string }) => (
  <span className="paper-field">
    <span>{name}</span>
  </span>
);

function PaperTest({ facts, of, f }: { readonly facts: SheetFacts; readonly of: MeasureFacts; readonly f: Formats }) {
  const { test } = of;
  const isLeakDown = test === "leak-down";
  const unit = unitOf(test);

  return (
    <div className="paper-test">
      <h2>
        {measureTitles[test]}, {f.levelUnit(unit)}
      </h2>
      <ul className="paper-ticks">
        {setUpQuestions(test, { fuel: facts.fuel ?? undefined }).map(({ id, asks }) => (
          <li key={id}>{asks}</li>
        ))}
      </ul>
      <p className="paper-fields">
        <Field name={isLeakDown ? "Tester" : "Gauge"} />
        {isLeakDown ? (
          <>
            <Field name={`Supply, ${f.levelUnit("kPa")}`} />
            <Field name={`Bore, mm${of.tester === null ? "" : ` (usual ${f.number(of.tester.orificeMm, 3)})`}`} />
          </>
        ) : (
          <Field name="Cranking speed, 1/min" />
        )}
      </p>
      <table className="paper-table">
        <thead>
          <tr>
            <th scope="col">Cyl</th>
            <th scope="col">Last</th>
            <th scope="col">Before</th>
            <th scope="col">Limit</th>
            <th scope="col">Order</th>
            {!isLeakDown && <th scope="col">First stroke</th>}
            <th scope="col">Reading</th>
            <th scope="col">Again</th>
            {isLeakDown && <th scope="col">Heard: ring it</th>}
          </tr>
        </thead>
        <tbody>
          {of.byCylinder.map(({ cylinder, last, limit }) => {
            const [newest, before] = last.filter(({ used }) => used);
            const figure = (level: number | undefined | null) => (level == null ? "–" : f.levelFigure(level, unit));
            return (
              <tr key={cylinder}>
                <th scope="row">{cylinder}</th>
                <td>{figure(newest?.level)}</td>
                <td>{figure(before?.level)}</td>
                <td>{figure(limit)}</td>
                <td />
                {!isLeakDown && <td />}
                <td className="paper-write" />
                <td className="paper-write" />
                {isLeakDown && <td className="paper-heard">{places.map(heardWords).join(" · ")}</td>}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
