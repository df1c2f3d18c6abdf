import type { TrackRecord } from "../../../lib/schema/track-record.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { distanceError, rangeFigure, scoreFigure } from "./record-words.ts";

/** Forecasts of limits by engine model and by tester. */
export function LimitGroups({ f, record }: { readonly f: Formats; readonly record: TrackRecord }) {
  const { byModel, byTester, withinByModel, withinByTester } = record.limits;
  if (byModel.length === 0) return null;
  const parts = [
    { by: "Engine model", groups: byModel, years: withinByModel },
    { by: "Tester", groups: byTester, years: withinByTester },
  ] as const;
  return (
    <ScrollBox name="Limits by engine model and tester">
      <table className="data-table record-table">
        <caption className="visually-hidden">Forecasts of limits by engine model and tester</caption>
        <thead>
          <tr>
            <th scope="col">Engine model, tester</th>
            <th scope="col" className="number">
              Forecasts
            </th>
            <th scope="col" className="number">
              Met
            </th>
            <th scope="col" className="number">
              Cylinders that met it
            </th>
            <th scope="col" className="number">
              80 % held
            </th>
            <th scope="col" className="number">
              Median error of the distance
            </th>
            <th scope="col" className="number">
              Brier, within a year
            </th>
          </tr>
        </thead>
        {parts.map(({ by, groups, years }) => (
          <tbody key={by}>
            <tr className="record-group">
              <th scope="rowgroup" colSpan={7}>
                {by}
              </th>
            </tr>
            {groups.map(({ key, name, scores }) => {
              const own = scores.borecast;
              const range = own.ranges?.["80"];
              const year = years.find((of) => of.key === key);
              return (
                <tr key={key ?? ""}>
                  <th scope="row">{name}</th>
                  <td className="number">{f.number(own.forecasts)}</td>
                  <td className="number">{f.number(own.met)}</td>
                  <td className="number">{f.number(own.outcomes)}</td>
                  <td className="number unbroken">{range === undefined ? "–" : rangeFigure(f, range)}</td>
                  <td className="number">{distanceError(f, own, "borecast")}</td>
                  <td className="number">{scoreFigure(f, year?.within.brier.borecast ?? null, 3)}</td>
                </tr>
              );
            })}
          </tbody>
        ))}
      </table>
    </ScrollBox>
  );
}
