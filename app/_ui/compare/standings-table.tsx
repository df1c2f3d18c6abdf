import type { ModelComparison } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { type CompareView, compareFileAddress } from "./address.ts";
import { StandingRows } from "./standing-rows.client.tsx";

const mostListed = 20;

/** Units by how they stand beside their sisters: those that stand out first, then the fastest. */
export function StandingsTable(props: {
  readonly f: Formats;
  readonly of: ModelComparison;
  readonly view: CompareView;
}) {
  const { f, of, view } = props;
  const chosen = of.standings.filter((s) => view.units.includes(s.unit));
  const listed = [...new Set([...of.standings.slice(0, mostListed), ...chosen])];
  const left = of.units - listed.length;
  if (listed.length === 0) {
    return (
      <Sheet title="Who declines fastest">
        <p>No unit has three usable tests yet, so none has a rate of its own to compare.</p>
      </Sheet>
    );
  }
  return (
    <Sheet
      title="Who declines fastest"
      note={`each unit's fastest cylinder, change ${f.ratePer(of.meterUnit)}; those that stand out first`}
      controls={<CsvLink href={compareFileAddress(view, "units")} of="all units by their decline" />}
      long
    >
      <ScrollBox name="Units by their decline">
        <table className="data-table compare-standings">
          <caption className="visually-hidden">Units by how fast they decline beside their sisters</caption>
          <thead>
            <tr>
              <th scope="col">Unit</th>
              <th scope="col">Depot</th>
              <th scope="col" className="number">
                Cylinder
              </th>
              <th scope="col" className="number">
                Likely rate
              </th>
              <th scope="col" className="number">
                8 in 10 between
              </th>
              <th scope="col">Faster than</th>
              <th scope="col">Stands out</th>
              <th scope="col" className="no-print">
                Chart
              </th>
            </tr>
          </thead>
          <tbody>
            <StandingRows
              standings={listed}
              of={{ engineModel: of.engineModel, meterUnit: of.meterUnit, measure: of.measure }}
              view={view}
            />
          </tbody>
        </table>
      </ScrollBox>
      {left > 0 && (
        <p className="compare-left">
          {f.number(left)} more {left === 1 ? "unit is" : "units are"} not listed: slower than these, or with fewer than
          three usable tests.
        </p>
      )}
    </Sheet>
  );
}
