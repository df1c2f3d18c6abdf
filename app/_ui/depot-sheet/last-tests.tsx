import type { TestLine, UnitReport } from "@/lib/schema/report.ts";
import { judgedMeasures } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { measureTitles } from "../unit/unit-words.ts";

const testsTold = 4;

/**
 * The latest tests in short: what they were made into, and which are not used. Where the rest of the sheet is long, only
 * the last test of each measure that is judged.
 */
export function LastTests(props: { readonly report: UnitReport; readonly f: Formats; readonly isLong: boolean }) {
  const { report, f, isLong } = props;
  const tests = report.tests.toSorted((a, b) => b.date.localeCompare(a.date) || b.attempt - a.attempt);
  const told = isLong
    ? judgedMeasures.flatMap((measure) => tests.find((test) => test.measure === measure) ?? [])
    : tests.slice(0, testsTold);
  const { unit } = report.assessment.meter;
  return (
    <section aria-labelledby="depot-tests">
      <h2 id="depot-tests">Last tests, made comparable</h2>
      <table className="data-table">
        <thead>
          <tr>
            <th scope="col">Date</th>
            <th scope="col" className="number">
              Meter, {f.meterUnit(unit)}
            </th>
            <th scope="col">Test</th>
            <th scope="col">Cylinders in order</th>
            <th scope="col">By</th>
          </tr>
        </thead>
        <tbody>
          {told.map((test) => (
            <tr key={`${test.file} ${test.line} ${test.measure} ${test.attempt}`}>
              <td>{f.date(test.date)}</td>
              <td className="number">{f.number(test.meter * f.meterFactor(unit))}</td>
              <td>{measureTitles[test.measure]}</td>
              <td>{readings(test, f)}</td>
              <td>{test.testedBy ?? "–"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function readings(test: TestLine, f: Formats): string {
  const unit = test.measure === "leak-down" ? "%" : "kPa";
  const inOrder = test.entered.toSorted((a, b) => a.cylinder - b.cylinder);
  const isWhole = inOrder.every((e, i) => e.cylinder === i + 1);
  const words = inOrder
    .map((e) => `${isWhole ? "" : `cyl ${e.cylinder}: `}${f.levelFigure(e.referred, unit)}`)
    .join(" · ");
  const unused = test.entered.every((e) => e.weight === 0) ? "; not used" : "";
  return `${words} ${f.levelUnit(unit)}${unused}`;
}
