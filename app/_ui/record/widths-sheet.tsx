import type { RangeWidth } from "../../../lib/assessment/pools.ts";
import type { RangeCalibration, TrackRecord } from "../../../lib/schema/track-record.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { measureNames } from "../compare/compare-words.ts";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { widthInForceWords } from "./record-words.ts";

/** How wide each model's ranges should be, by its own past. */
export function WidthsSheet({
  f,
  record,
  inForce,
}: {
  readonly f: Formats;
  readonly record: TrackRecord;
  /** The factors that forecasts are told with now; a kind without one is told as it comes. */
  readonly inForce: readonly RangeWidth[];
}) {
  const factorOf = (of: RangeCalibration) =>
    inForce.find(
      (one) => one.engineModel === of.engineModel && one.measure === of.measure && one.meterUnit === of.meterUnit,
    )?.factor ?? 1;
  return (
    <Sheet
      title="Are ranges as wide as they should be?"
      note="By engine model: the factor that would have made its 80 % ranges hold 80 in 100, drawn towards 1 where outcomes are few"
      long
    >
      <ScrollBox name="Widths of ranges by model">
        <table className="data-table record-table">
          <caption className="visually-hidden">Widths of ranges by model</caption>
          <thead>
            <tr>
              <th scope="col">Engine model</th>
              <th scope="col">Test</th>
              <th scope="col" className="number">
                Tests
              </th>
              <th scope="col" className="number">
                80 % held, all forecasts
              </th>
              <th scope="col" className="number">
                Factor
              </th>
              <th scope="col" className="number">
                Held with the factor of others
              </th>
              <th scope="col">Ranges are now</th>
            </tr>
          </thead>
          <tbody>
            {record.calibration.map((of) => (
              <tr key={`${of.engineModel} ${of.measure} ${of.meterUnit}`}>
                <th scope="row">
                  <AppLink href={`/models/${encodeURIComponent(of.engineModel)}`}>{of.engineModel}</AppLink>{" "}
                  <span className="second small">{f.meterUnit(of.meterUnit)}</span>
                </th>
                <td>{measureNames[of.measure]}</td>
                <td className="number">{f.number(of.outcomes)}</td>
                <td className="number">{of.before === null ? "–" : f.percent(100 * of.before)}</td>
                <td className="number">{f.number(of.factor, 2)}</td>
                <td className="number">{of.after === null ? "–" : f.percent(100 * of.after)}</td>
                <td className={factorOf(of) === 1 ? "second" : ""}>
                  {widthInForceWords(f, factorOf(of))}
                  {of.raw === null && ": too few tests"}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      <p className="record-note second">
        These factors are in force: what is told of a unit today has its ranges widened or narrowed by them, and its
        page says so. One that is within 2 % of 1, or of the one in force, changes nothing. The level foreseen for a day
        stays; a likely date may move with the range, most where part of it lies beyond the horizon. The forecasts of
        this record are made without them, so that they aren’t judged by what was learnt from them.
      </p>
      <p className="record-note second">
        “All forecasts”: each that Borecast told, by the figures before they are rounded. The tables above count only
        those that a straight line and last time could tell as well, so that all are held against the same readings;
        their shares may differ a little. “Of others”: the factor is learnt on one half of the engines and tried on the
        other, so that it isn’t judged by what it was made from.
      </p>
    </Sheet>
  );
}
