import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { Term } from "../term.tsx";
import { bothWords } from "./both-words.ts";
import { ScrollBox } from "./scroll-box.tsx";
import { WindowRows } from "./window-rows.client.tsx";

/** Level, rate and crossing of every cylinder and measure, in figures. */
export function WindowsTable(props: {
  readonly report: UnitReport;
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
  readonly f: Formats;
}) {
  const { report, filesAt, f } = props;
  const { unit, meter, cylinders, repairs, soldBefore = null } = report.assessment;
  const lines = cylinders.flatMap((c) =>
    c.measures.filter((m) => m.crossing !== null).map((m) => ({ cylinder: c.cylinder, m })),
  );
  const both = bothWords(report.assessment, f);
  return (
    <Sheet
      title="When each limit is met"
      note="early, likely and late: 1, 5 and 9 of 10 such cylinders would have met it by then, with no repair made meanwhile"
      controls={<CsvLink href={`${filesAt}/windows`} of="windows" />}
      long
    >
      {both !== null && (
        <div className="unit-both">
          <p>{both}</p>
          <details className="unit-figures">
            <summary>How this is reckoned</summary>
            <p>
              Both windows are gone through together: for each value of what all cylinders of the unit have in common
              (11 of them), for each way that the doubt about a cylinder’s class may turn out, and for use a day as it
              may be (5 values). Of all ways in which the first repair falls due before the horizon, or before the
              planned disposal, the chance is the share in which the other falls due so soon after it. What makes the
              one come early makes the other come early. That tight valves may bring worn rings to light is not in it:
              no figures are known of that. From 50 % on both are advised together. The span is one of{" "}
              <AppLink href="/settings">the settings</AppLink>.
            </p>
          </details>
        </div>
      )}
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
