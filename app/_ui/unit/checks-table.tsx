import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "./scroll-box.tsx";
import { decimalsOf } from "./set-up-words.ts";
import { checkWords } from "./unit-words.ts";

/** What else was looked at, beside the tests: borescope, clearances, gas in the coolant … */
export function ChecksTable({
  report,
  of,
  filesAt,
  f,
}: {
  readonly report: UnitReport;
  readonly of: string;
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
  readonly f: Formats;
}) {
  return (
    <Sheet
      title="Checks"
      note="evidence beside the tests; each weighs in the causes"
      controls={<CsvLink href={`${filesAt}/checks`} of={`checks of ${of}`} />}
      long
    >
      <ScrollBox name={`Checks of ${of}`}>
        <table className="data-table unit-checks">
          <caption className="visually-hidden">Checks of {of}, latest first</caption>
          <thead>
            <tr>
              <th scope="col">Date</th>
              <th scope="col">Check</th>
              <th scope="col">Cylinder</th>
              <th scope="col">Result</th>
              <th scope="col">Remarks</th>
            </tr>
          </thead>
          <tbody>
            {report.checks.map((check) => (
              <tr key={JSON.stringify(check)}>
                <td className="unit-nowrap">{f.date(check.date)}</td>
                <td>{checkWords[check.check]}</td>
                <td>{check.cylinder ?? "whole engine"}</td>
                <td>
                  {check.result}
                  {check.value !== null &&
                    `, ${f.number(check.value, decimalsOf(check.value))}${check.valueUnit === null ? "" : `\u00a0${check.valueUnit}`}`}
                </td>
                <td>{check.remarks ?? ""}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  );
}
