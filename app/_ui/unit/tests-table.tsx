import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import { CsvLink } from "../csv-link.tsx";
import type { ToldStep } from "../recording/told-steps.ts";
import { Sheet } from "../sheet.tsx";
import { Term } from "../term.tsx";
import { ChoiceLink } from "./choice-link.client.tsx";
import { departedAt } from "./departures.ts";
import { ScrollBox } from "./scroll-box.tsx";
import { TestRows } from "./test-rows.client.tsx";

/** So many of the latest are shown until all are asked for. */
const testsFolded = 12;

/** Every test as entered and what it was made into: the twin of the charts. */
export function TestsTable(props: {
  readonly report: UnitReport;
  /** Whom the tests are of, for names: "L-203", "engine QD6-4315". */
  readonly of: string;
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
  readonly isAll: boolean;
  /** The page with all of them, and with the latest only. */
  readonly addresses: { readonly all: string; readonly latest: string };
  /** What was done to each test since it was entered, in words; those without a history are missing. */
  readonly history?: (test: UnitReport["tests"][number]) => readonly ToldStep[];
  readonly f: Formats;
}) {
  const { report, of, filesAt, isAll, addresses, history, f } = props;
  const { meter } = report.assessment;
  const warnings = [...new Set(report.assessment.warnings)];
  const tests = [...report.tests].sort((a, b) => b.date.localeCompare(a.date) || b.x - a.x || b.attempt - a.attempt);
  const shown = isAll ? tests : tests.slice(0, testsFolded);
  return (
    <Sheet
      title="Tests"
      note="what was entered, and what it was made into; nothing entered is ever changed"
      controls={<CsvLink href={`${filesAt}/tests`} of={`all tests of ${of}`} />}
      long
      id="tests"
    >
      <ScrollBox name={`Tests of ${of}`}>
        <table className="data-table unit-table unit-tests">
          <caption className="visually-hidden">
            Tests of {of}, latest first; readings in the order of the cylinders
          </caption>
          <thead>
            <tr>
              <th scope="col">Date</th>
              <th scope="col" className="number">
                Meter, {f.meterUnit(meter.unit)}
              </th>
              <th scope="col">Test</th>
              <th scope="col">Entered</th>
              <th scope="col">Made into</th>
              <th scope="col">
                <Term of="heard-at" shown="Heard at" />
              </th>
              <th scope="col">
                <Term of="set-up" shown="Set-up" />
              </th>
              <th scope="col">
                <Term of="tester" shown="Tester" />, by whom
              </th>
              <th scope="col">From</th>
            </tr>
          </thead>
          <tbody>
            <TestRows
              tests={shown}
              steps={shown.map((test) => history?.(test) ?? [])}
              unit={report.assessment.unit}
              meterUnit={meter.unit}
              cylinders={report.model.cylinders}
              departed={shown.map((test) => departedAt(test, report.earlyWarnings))}
            />
          </tbody>
        </table>
      </ScrollBox>
      {tests.length > testsFolded && (
        <p className="unit-fold">
          {isAll
            ? `All ${f.number(tests.length)} tests. `
            : `The latest ${testsFolded} of ${f.number(tests.length)} tests. `}
          <ChoiceLink href={isAll ? addresses.latest : addresses.all} chosen={false} inText className="no-print">
            {isAll ? "Show the latest only" : "Show all tests"}
          </ChoiceLink>
        </p>
      )}
      {warnings.length > 0 && (
        <>
          <h3 className="unit-noted">Noted on these data</h3>
          <ul className="unit-notes">
            {warnings.map((warning) => (
              <li key={warning}>{sentenceWords(f.words(warning))}</li>
            ))}
          </ul>
        </>
      )}
    </Sheet>
  );
}
