import {
  fewestOutcomes,
  forecasters,
  type LimitScore,
  type Range,
  type TrackRecord,
} from "../../../lib/schema/track-record.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { trackRecordFileAddress } from "./address.ts";
import { LimitGroups } from "./limit-groups.tsx";
import { distanceError, fewLimitsWords, forecasterName, rangeFigure, scoreFigure } from "./record-words.ts";

const months = { 182: "6 months", 365: "a year", 730: "2 years" } as Readonly<Record<number, string>>;

/** When limits were met, against when they were told to be. */
export function LimitsSheet({ f, record }: { readonly f: Formats; readonly record: TrackRecord }) {
  const { overall, within } = record.limits;
  const own = overall.borecast;
  const few = own.outcomes < fewestOutcomes;
  return (
    <Sheet
      title="When limits were met"
      note={`${f.number(own.forecasts)} forecasts of cylinders below their limit; after ${f.number(own.met)} of them it was met, by ${f.number(own.outcomes)} ${own.outcomes === 1 ? "cylinder" : "cylinders"}`}
      controls={<CsvLink href={trackRecordFileAddress("limits")} of="every forecast of a limit and what came" />}
      long
    >
      {few && <p className="record-note">{fewLimitsWords(f, own.outcomes)}</p>}
      <ScrollBox name="Limits by forecast">
        <table className="data-table record-table">
          <caption className="visually-hidden">Forecasts of when limits are met</caption>
          <thead>
            <tr>
              <th scope="col">Forecast</th>
              {(["50", "80", "90"] as const).map((range) => (
                <th key={range} scope="col" className="number">
                  {range} % held
                </th>
              ))}
              <th scope="col" className="number">
                Median error of the distance
              </th>
              <th scope="col" className="number">
                Pinball, share of the distance followed
              </th>
              {within.map(({ days }) => (
                <th key={days} scope="col" className="number">
                  Brier, within {months[days]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {forecasters.map((forecaster) => (
              <tr key={forecaster} data-own={forecaster === "borecast"}>
                <th scope="row">{forecasterName(forecaster)}</th>
                <Ranges f={f} ranges={overall[forecaster].ranges} />
                <td className="number">{distanceError(f, overall[forecaster], forecaster)}</td>
                <td className="number">{scoreFigure(f, overall[forecaster].pinball, 3)}</td>
                {within.map(({ days, brier }) => (
                  <td key={days} className="number">
                    {scoreFigure(f, brier[forecaster], 3)}
                  </td>
                ))}
              </tr>
            ))}
            <tr>
              <th scope="row">The share that came, told to all</th>
              <td colSpan={5} />
              {within.map(({ days, brierOfShare }) => (
                <td key={days} className="number">
                  {scoreFigure(f, brierOfShare, 3)}
                </td>
              ))}
            </tr>
            <tr>
              <th scope="row">Came, of those followed so long</th>
              <td colSpan={5} />
              {within.map(({ days, met, forecasts }) => (
                <td key={days} className="number unbroken">
                  {f.number(met)} of {f.number(forecasts)}
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </ScrollBox>
      <LimitGroups f={f} record={record} />
      <p className="record-note second">
        Lower scores are better. {ruleWords(f, record)} A limit counts as met where the middle of three readings is past
        it, or where a repair followed the reading past it; open forecasts are weighed in by how far they were followed.
      </p>
      <WarningLines f={f} record={record} />
    </Sheet>
  );
}

function Ranges({ f, ranges }: { readonly f: Formats; readonly ranges: LimitScore["ranges"] }) {
  if (ranges === null) {
    return (
      <td colSpan={3} className="second">
        tells no range
      </td>
    );
  }
  const all: readonly Range[] = [50, 80, 90];
  return all.map((range) => {
    const { open, share } = ranges[range];
    return (
      <td key={range} className="number unbroken">
        {rangeFigure(f, ranges[range])}
        {share === null && <span className="record-interval">{f.number(open)} open</span>}
      </td>
    );
  });
}

/** What the fixed-interval rule is. */
function ruleWords(f: Formats, { fixedIntervals }: TrackRecord): string {
  const known = fixedIntervals.flatMap(({ engineModel, interval, meterUnit }) =>
    interval === null ? [] : [`${engineModel} every ${f.forecastMeter(interval, meterUnit)}`],
  );
  const rule = "The fixed interval is the median use from a baseline to a repair, known with hindsight";
  return known.length === 0
    ? `${rule}: no life has ended yet, so it asks for nothing.`
    : `${rule}: ${known.join(", ")}; other models: no life has ended yet.`;
}

function WarningLines({ f, record }: { readonly f: Formats; readonly record: TrackRecord }) {
  const { met, warned, medianDays, days, opened, openedFlagged, flaggedSound, faultUnflagged } = record.warnings;
  return (
    <dl className="record-facts">
      <div>
        <dt>Warned before the limit was met</dt>
        <dd>
          {f.number(warned)} of {f.number(met)}
          {medianDays !== null && `, ${f.days(medianDays)} before in the middle`}
          {medianDays === null && days.length > 0 && `: ${days.map((some) => f.number(some)).join(", ")} days before`}
        </dd>
      </div>
      <div>
        <dt>Opened with a finding, and a forecast before</dt>
        <dd>
          {f.number(opened)}, of which {f.number(openedFlagged)} were told to plan or past the limit
        </dd>
      </div>
      <div>
        <dt>False alarms: told, opened and found sound</dt>
        <dd>{f.number(flaggedSound)}</dd>
      </div>
      <div>
        <dt>Misses: opened and at fault, not told</dt>
        <dd>{f.number(faultUnflagged)}</dd>
      </div>
    </dl>
  );
}
