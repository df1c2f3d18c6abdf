"use client";

import type { ModelComparison, SisterBand } from "../../../lib/schema/comparison.ts";
import { CsvLink } from "../csv-link.tsx";
import { useFormats } from "../formats.client.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { levelNames, levelUnitOf } from "./compare-words.ts";
import type { CompareLine } from "./lines.ts";

/** The chart as figures: the band, and what the drawn units read. A client component so that they are sent once, as data. */
export function ComparisonFigures(props: {
  readonly of: Pick<ModelComparison, "measure" | "meterUnit">;
  readonly band: SisterBand | null;
  readonly lines: readonly CompareLine[];
  /** Where the two tables are downloaded. */
  readonly files: { readonly band: string; readonly lines: string };
}) {
  const { of, lines, files } = props;
  const f = useFormats();
  const unit = levelUnitOf(of.measure);
  const band = props.band?.stretches.flat() ?? [];
  if (band.length + lines.length === 0) return null;
  return (
    <details className="compare-figures">
      <summary>The same as figures</summary>
      {band.length > 0 && <CsvLink href={files.band} of="the sisters' band" />}
      {band.length > 0 && (
        <ScrollBox name="The sisters' band as figures">
          <table className="data-table">
            <caption>
              Sisters: {levelNames[of.measure]} in {f.levelUnit(unit)}
            </caption>
            <thead>
              <tr>
                {[f.meterUnit(of.meterUnit), "Engines", "10 % below", "Half below", "90 % below"].map((head) => (
                  <th key={head} scope="col" className="number">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {band.map((point) => (
                <tr key={point.x}>
                  <td className="number">{f.number(point.x * f.meterFactor(of.meterUnit))}</td>
                  <td className="number">{f.number(point.engines)}</td>
                  {(["p10", "p50", "p90"] as const).map((share) => (
                    <td key={share} className="number">
                      {f.levelFigure(point[share], unit, unit === "%" ? 1 : 0)}
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      )}
      {lines.length > 0 && <CsvLink href={files.lines} of="the units drawn" />}
      {lines.length > 0 && (
        <ScrollBox name="The drawn units as figures">
          <table className="data-table">
            <caption>Units drawn</caption>
            <thead>
              <tr>
                <th scope="col">Line</th>
                <th scope="col" className="number">
                  Meter
                </th>
                <th scope="col" className="number">
                  {f.levelUnit(unit)}
                </th>
                <th scope="col">Counts</th>
              </tr>
            </thead>
            <tbody>
              {lines.flatMap((line) =>
                line.runs.flatMap((run) =>
                  run.points.map(([x, level, weight]) => (
                    <tr key={`${line.key} ${x} ${level}`}>
                      <th scope="row">{line.label}</th>
                      <td className="number">{f.meter(x, of.meterUnit)}</td>
                      <td className="number">{f.levelFigure(level, unit)}</td>
                      <td>{weight <= 0 ? "kept, not used" : run.compared ? "yes" : "after a repair"}</td>
                    </tr>
                  )),
                ),
              )}
            </tbody>
          </table>
        </ScrollBox>
      )}
    </details>
  );
}
