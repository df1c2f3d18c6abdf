import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { CsvLink } from "../csv-link.tsx";
import { Sheet } from "../sheet.tsx";
import { UseChart } from "./use-chart.client.tsx";
import { UseFigures } from "./use-figures.client.tsx";
import { drawingOfUse } from "./use-steps.ts";

/** How hard the unit worked between its meter readings, and what the forecast takes: drawn, and as figures. */
export function UseSheet(props: {
  readonly report: UnitReport;
  /** The address below which the page's tables are downloaded. */
  readonly filesAt: string;
  readonly f: Formats;
}) {
  const { report, filesAt, f } = props;
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
          <UseChart drawing={drawing} unit={unit} label={`Use a week between meter readings. ${ahead}`} />
          <p className="unit-crossing">{ahead}</p>
          {use.notes.map((note) => (
            <p key={note} className="second">
              {f.words(note)}
            </p>
          ))}
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
            <CsvLink href={`${filesAt}/use`} of={`use of ${report.assessment.unit}`} />
            <UseFigures of={report.assessment.unit} spans={use.spans} meterUnit={unit} />
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
