import type { ModelComparison, UnitStanding } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { unitAddress } from "../unit-address.ts";
import { type CompareView, compareAddress, mostUnits } from "./address.ts";
import { levelUnitOf } from "./compare-words.ts";
import { slowerWords, standOutWords } from "./standing-words.ts";

const mostListed = 20;

/** Units by how they stand beside their sisters: those that stand out first, then the fastest. */
export function StandingsTable(props: {
  readonly f: Formats;
  readonly of: ModelComparison;
  readonly view: CompareView;
}) {
  const { f, of, view } = props;
  const unit = levelUnitOf(of.measure);
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
            {listed.map((standing) => (
              <StandingRow key={standing.unit} f={f} standing={standing} of={of} view={view} levelUnit={unit} />
            ))}
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

function StandingRow(props: {
  readonly f: Formats;
  readonly standing: UnitStanding;
  readonly of: ModelComparison;
  readonly view: CompareView;
  readonly levelUnit: "%" | "kPa";
}) {
  const { f, standing, of, view, levelUnit } = props;
  const { unit, fastest } = standing;
  const figure = (perThousand: number) => f.rateFigure(perThousand, levelUnit, of.meterUnit);
  const words = standOutWords(standing);
  return (
    <tr data-chosen={view.units.includes(unit)}>
      <th scope="row">
        <AppLink href={unitAddress(unit)}>{unit}</AppLink>
      </th>
      <td>{standing.depot ?? "not recorded"}</td>
      <td className="number">{fastest.cylinder}</td>
      <td className="number">{figure(fastest.perThousand)}</td>
      <td className="number unbroken">
        {figure(fastest.p10)} to {figure(fastest.p90)}
      </td>
      <td>{slowerWords(f, standing)}</td>
      <td>{words === "" ? <span className="second">no</span> : <strong>{words}</strong>}</td>
      <td className="no-print">
        <ChartLink unit={unit} of={of} view={view} />
      </td>
    </tr>
  );
}

function ChartLink({
  unit,
  of,
  view,
}: {
  readonly unit: string;
  readonly of: ModelComparison;
  readonly view: CompareView;
}) {
  const { engineModel: model, meterUnit, measure } = of;
  const isDrawn = view.units.includes(unit);
  if (!isDrawn && view.units.length >= mostUnits) return null;
  const units = isDrawn ? view.units.filter((u) => u !== unit) : [...view.units, unit];
  return (
    <AppLink href={compareAddress(view, { model, meterUnit, measure, units })} scroll={false} className="unbroken">
      {isDrawn ? "Take out" : "Draw"}
      <span className="visually-hidden"> {unit}</span>
    </AppLink>
  );
}
