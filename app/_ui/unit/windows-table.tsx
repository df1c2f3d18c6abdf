import type { UnitReport } from "@/lib/schema/report.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { Term } from "../term.tsx";
import { ScrollBox } from "./scroll-box.tsx";
import { WindowRows } from "./window-rows.client.tsx";

/** Level, rate and crossing of every cylinder and measure, in figures. */
export function WindowsTable(props: {
  readonly report: UnitReport;
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
}) {
  const { report, filesAt } = props;
  const { unit, meter, cylinders, repairs, soldBefore = null } = report.assessment;
  const lines = cylinders.flatMap((c) =>
    c.measures.filter((m) => m.crossing !== null).map((m) => ({ cylinder: c.cylinder, m })),
  );
  return (
    <Sheet
      title="When each limit is met"
      note="early, likely and late: 1, 5 and 9 of 10 such cylinders would have met it by then, with no repair made meanwhile"
      controls={<CsvLink href={`${filesAt}/windows`} of="windows" />}
      long
    >
      <ScrollBox name={`When each limit of ${unit} is met`}>
        <table className="data-table unit-table">
          <caption className="visually-hidden">
            Windows of {unit}, by class of repair, then by cylinder and test
          </caption>
          <thead>
            <tr>
              <th scope="col">Place</th>
              <th scope="col">Test</th>
              <th scope="col">
                <Term of="window" shown="Early" />
              </th>
              <th scope="col">Likely</th>
              <th scope="col">Late</th>
              <th scope="col" className="number">
                Within a year
              </th>
              <th scope="col">Band</th>
              <th scope="col" className="number">
                Level
              </th>
              <th scope="col" className="number">
                Limit
              </th>
              <th scope="col">
                <Term of="rate" shown="Rate" />, and 8 in 10 range
              </th>
              <th scope="col">Why this band</th>
            </tr>
          </thead>
          <WindowRows repairs={repairs} soldBefore={soldBefore} lines={lines} meterUnit={meter.unit} />
        </table>
      </ScrollBox>
    </Sheet>
  );
}
