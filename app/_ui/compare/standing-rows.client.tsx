"use client";

import type { ModelComparison, UnitStanding } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { useFormats } from "../formats.client.tsx";
import { unitAddress } from "../unit-address.ts";
import { type CompareView, compareAddress, mostUnits } from "./address.ts";
import { levelUnitOf } from "./compare-words.ts";
import { slowerWords, standOutWords } from "./standing-words.ts";

/** Which sisters they are. */
type Kind = Pick<ModelComparison, "engineModel" | "meterUnit" | "measure">;

/** The rows of "Who declines fastest"; a client component so that they are sent to the browser once, as data. */
export function StandingRows(props: {
  readonly standings: readonly UnitStanding[];
  readonly of: Kind;
  readonly view: CompareView;
}) {
  const f = useFormats();
  const { standings, ...shared } = props;
  return standings.map((standing) => <StandingRow key={standing.unit} standing={standing} f={f} {...shared} />);
}

function StandingRow(props: {
  readonly f: Formats;
  readonly standing: UnitStanding;
  readonly of: Kind;
  readonly view: CompareView;
}) {
  const { f, standing, of, view } = props;
  const levelUnit = levelUnitOf(of.measure);
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

function ChartLink({ unit, of, view }: { readonly unit: string; readonly of: Kind; readonly view: CompareView }) {
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
