import type { ReactNode } from "react";
import type { Crossing, MeasureAssessment } from "@/lib/schema/assessment.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { MeterUnit } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import { BandMark } from "../band-mark.tsx";
import { Sheet } from "../sheet.tsx";
import { Term } from "../term.tsx";
import { ScrollBox } from "./scroll-box.tsx";
import { crossingWords, measureTitles } from "./unit-words.ts";

/** Level, rate and crossing of every cylinder and measure, in figures. */
export function WindowsTable({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const { unit, meter, cylinders, repairs } = report.assessment;
  const lines = cylinders.flatMap((c) =>
    c.measures.filter((m) => m.crossing !== null).map((m) => ({ cylinder: c.cylinder, m })),
  );
  return (
    <Sheet
      title="When each limit is met"
      note="early, likely and late: 1, 5 and 9 of 10 such cylinders would have met it by then, with no repair made meanwhile"
      long
    >
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
          <tbody>
            {(
              [
                ["Top-end repair", repairs.topEnd],
                ["Bottom-end repair", repairs.bottomEnd],
              ] as const
            ).map(([name, crossing]) => (
              <tr key={name}>
                <th scope="row" colSpan={2} className="unit-row-name">
                  {name}, any cylinder
                </th>
                <CrossingCells crossing={crossing} meterUnit={meter.unit} f={f} />
                <td colSpan={5} />
              </tr>
            ))}
            {lines.map(({ cylinder, m }) => (
              <tr key={`${cylinder} ${m.measure}`}>
                <th scope="row" className="unit-row-name">
                  cyl {cylinder}
                </th>
                <td>{measureTitles[m.measure]}</td>
                <CrossingCells crossing={m.crossing} meterUnit={meter.unit} f={f} />
                <td>
                  <BandMark band={m.band} tested />
                </td>
                <td className="number unit-nowrap">{m.level === null ? "–" : f.level(m.level, m.unit)}</td>
                <td className="number unit-nowrap">{m.limit === null ? "–" : f.level(m.limit, m.unit)}</td>
                <td className="unit-nowrap">{rateCell(m, meter.unit, f)}</td>
                <td className="unit-why">{sentenceWords(f.words(m.reason))}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </Sheet>
  );
}

function rateCell({ rate, unit }: MeasureAssessment, meterUnit: MeterUnit, f: Formats): ReactNode {
  if (rate === null) return "–";
  return (
    <>
      {f.rate(rate.perThousand, unit, meterUnit)}
      <div className="small second">
        {f.rateFigure(rate.p10, unit, meterUnit)} to {f.rateFigure(rate.p90, unit, meterUnit)}
      </div>
    </>
  );
}

function CrossingCells(props: {
  readonly crossing: Crossing | null;
  readonly meterUnit: MeterUnit;
  readonly f: Formats;
}) {
  const { crossing, meterUnit, f } = props;
  const chance = crossing?.probabilityWithinYear ?? null;
  return (
    <>
      {crossing?.status === "projected" ? (
        (["p10", "p50", "p90"] as const).map((q) => (
          <td key={q} className="unit-nowrap">
            <Quantile crossing={crossing} q={q} meterUnit={meterUnit} f={f} />
          </td>
        ))
      ) : (
        <td colSpan={3} className="second">
          {crossing === null ? "not judged" : crossingWords[crossing.status]}
        </td>
      )}
      <td className="number unit-nowrap">{chance === null ? "–" : f.probability(chance)}</td>
    </>
  );
}

function Quantile(props: {
  readonly crossing: Crossing;
  readonly q: "p10" | "p50" | "p90";
  readonly meterUnit: MeterUnit;
  readonly f: Formats;
}) {
  const { f } = props;
  const { date, meter } = props.crossing;
  const at = date[props.q];
  const reading = meter[props.q];
  if (at === null) return <span className="second">beyond the horizon</span>;
  return (
    <>
      {f.forecast(at, date.p10, date.p90)}
      {reading !== null && <div className="small second">{f.forecastMeter(reading, props.meterUnit)}</div>}
    </>
  );
}
