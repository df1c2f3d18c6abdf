"use client";

import type { ReactNode } from "react";
import type { Crossing, MeasureAssessment, UnitAssessment } from "@/lib/schema/assessment.ts";
import type { MeterUnit } from "@/lib/schema/words.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import { BandMark } from "../band-mark.tsx";
import { useFormats } from "../formats.client.tsx";
import { crossingWords, measureTitles } from "./unit-words.ts";

/** The rows of "When each limit is met"; a client component so that they go to the browser once, as data. */
export function WindowRows(props: {
  readonly repairs: UnitAssessment["repairs"];
  /** Planned disposal and the classes of repair that are likely only after it; null: none. */
  readonly soldBefore: NonNullable<UnitAssessment["soldBefore"]> | null;
  readonly lines: readonly { readonly cylinder: number; readonly m: MeasureAssessment }[];
  readonly meterUnit: MeterUnit;
}) {
  const { repairs, soldBefore, lines, meterUnit } = props;
  const f = useFormats();
  const shared = { meterUnit, f };
  return (
    <tbody>
      {(
        [
          ["Top-end repair", repairs.topEnd, soldBefore?.topEnd],
          ["Bottom-end repair", repairs.bottomEnd, soldBefore?.bottomEnd],
        ] as const
      ).map(([name, crossing, isAfterSale]) => (
        <tr key={name}>
          <th scope="row" colSpan={2} className="unit-row-name">
            {name}, any cylinder
          </th>
          <CrossingCells crossing={crossing} {...shared} />
          <td colSpan={5} className="second">
            {isAfterSale && soldBefore !== null && `sold before: planned for disposal on ${f.date(soldBefore.date)}`}
          </td>
        </tr>
      ))}
      {lines.map(({ cylinder, m }) => (
        <tr key={`${cylinder} ${m.measure}`}>
          <th scope="row" className="unit-row-name">
            cyl {cylinder}
          </th>
          <td>{measureTitles[m.measure]}</td>
          <CrossingCells crossing={m.crossing} {...shared} />
          <td>
            <BandMark band={m.band} tested />
          </td>
          <td className="number unit-nowrap">{m.level === null ? "–" : f.level(m.level, m.unit)}</td>
          <td className="number unit-nowrap">{m.limit === null ? "–" : f.level(m.limit, m.unit)}</td>
          <td className="unit-nowrap">{rateCell(m, meterUnit, f)}</td>
          <td className="unit-why">{sentenceWords(f.words(m.reason))}</td>
        </tr>
      ))}
    </tbody>
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
