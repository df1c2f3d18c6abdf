import { daysBetween } from "@/lib/calendar.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { UseChart } from "./use-chart.tsx";
import { drawingOfUse } from "./use-steps.ts";

/** Shorter pauses say nothing of a unit. */
const standingDays = 28;

/** How hard the unit worked between its meter readings, and what the forecast takes: drawn, and as figures. */
export function UseSheet({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const { use, asOf } = report;
  const { unit } = report.assessment.meter;
  const drawing = drawingOfUse(use, asOf, f.meterFactor(unit));
  const ahead = aheadWords(report, f);
  return (
    <Sheet title="Use over time" note={`${f.meterUnit(unit)} a week between known meter readings`} long>
      {drawing === null ? (
        <p>Fewer than two meter readings are known. {ahead}</p>
      ) : (
        <>
          <UseChart drawing={drawing} report={report} f={f} label={`Use a week between meter readings. ${ahead}`} />
          <p className="unit-crossing">{ahead}</p>
          {(drawing.resets.length > 0 || drawing.steps.some((s) => s.standing)) && (
            <ul className="unit-key">
              {drawing.resets.map((reset) => (
                <li key={reset.date}>
                  <span className="unit-letter">N</span>
                  new meter, {f.date(reset.date)}: {f.meter(reset.before, unit)}, then {f.meter(reset.after, unit)}{" "}
                  (wear goes on)
                </li>
              ))}
              {drawing.steps.some((s) => s.standing) && (
                <li>
                  <span className="use-standing-key" aria-hidden="true" />
                  stood still
                </li>
              )}
            </ul>
          )}
          <details className="unit-figures">
            <summary>Figures between readings</summary>
            <table className="data-table">
              <caption className="visually-hidden">
                Use of {report.assessment.unit} between meter readings, latest first
              </caption>
              <thead>
                <tr>
                  <th scope="col">From</th>
                  <th scope="col">To</th>
                  <th scope="col" className="number">
                    Used
                  </th>
                  <th scope="col" className="number">
                    A week
                  </th>
                </tr>
              </thead>
              <tbody>
                {use.spans.toReversed().map(({ from, to, used }) => (
                  <tr key={from}>
                    <td>{f.date(from)}</td>
                    <td>{f.date(to)}</td>
                    <td className="number">{f.meter(used, unit)}</td>
                    <td className="number">
                      {used === 0 && daysBetween(from, to) >= standingDays
                        ? "stood"
                        : f.weeklyUse(used / Math.max(1, daysBetween(from, to)), unit)}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </details>
        </>
      )}
    </Sheet>
  );
}

/** What the forecast takes the use to be. */
function aheadWords({ use, assessment }: UnitReport, f: Formats): string {
  if (use.ahead === null) return "Out of service: the forecast takes no use.";
  const week = (perDay: number) => f.weeklyUse(perDay, assessment.meter.unit);
  const from = use.aheadIsPooled ? ", as units of its kind" : "";
  return `The forecast takes ${week(use.ahead.p50)} a week${from}; 8 in 10 between ${week(use.ahead.p10)} and ${week(use.ahead.p90)}.`;
}
