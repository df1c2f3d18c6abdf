"use client";

import type { MeterUnit } from "@/lib/schema/words.ts";
import { useFormats } from "../formats.client.tsx";
import type { UseDrawing } from "./use-steps.ts";

const height = 150;

/** Use a week as steps from 0, new meters marked, and the range that the forecast takes. Drawn by the server, and sent as data. */
export function UseChart(props: { readonly drawing: UseDrawing; readonly unit: MeterUnit; readonly label: string }) {
  const { drawing, unit, label } = props;
  const f = useFormats();
  const top = drawing.ticks.at(-1) ?? 1;
  const y = (perWeek: number) => height * (1 - perWeek / top);
  const { today, ahead } = drawing;
  const decimals = (drawing.ticks[1] ?? 1) * f.meterFactor(unit) < 1 ? 1 : 0;
  return (
    <div className="use-chart" role="img" aria-label={label}>
      <div className="use-ticks" aria-hidden="true">
        {drawing.ticks.map((tick) => (
          <span key={tick} style={{ top: y(tick) }}>
            {f.number(tick * f.meterFactor(unit), decimals)}
          </span>
        ))}
      </div>
      <svg width="100%" height={height} className="use-drawing" aria-hidden="true">
        {drawing.ticks.map((tick) => (
          <line key={tick} x1="0" x2="100%" y1={y(tick)} y2={y(tick)} stroke="var(--grid)" />
        ))}
        {drawing.steps.map((step) => (
          <rect
            key={step.from}
            className={step.standing ? "use-standing" : "use-step"}
            x={`${step.left}%`}
            width={`${step.width}%`}
            y={step.standing ? height - 5 : y(step.perWeek)}
            height={step.standing ? 5 : Math.max(0, height - y(step.perWeek))}
          />
        ))}
        {ahead !== null && (
          <>
            <rect
              className="use-range"
              x={`${today}%`}
              width={`${100 - today}%`}
              y={y(ahead.p90)}
              height={Math.max(1, y(ahead.p10) - y(ahead.p90))}
            />
            <line
              x1={`${today}%`}
              x2="100%"
              y1={y(ahead.p50)}
              y2={y(ahead.p50)}
              stroke="var(--ink)"
              strokeWidth="1.5"
              strokeDasharray="6 4"
            />
          </>
        )}
        {drawing.resets.map((reset) => (
          <svg key={reset.date} x={`${reset.at}%`} width="1" overflow="visible">
            <title>{`New meter, ${f.date(reset.date)}`}</title>
            <path d={`M0 0V${height}`} stroke="var(--ink)" />
            <rect x="-8" width="16" height="16" fill="var(--ink)" />
            <text x="0" y="12.5" textAnchor="middle" className="use-letter">
              N
            </text>
          </svg>
        ))}
        <line x1={`${today}%`} x2={`${today}%`} y1="0" y2={height} stroke="var(--ink)" strokeWidth="1.5" />
      </svg>
      <div className="use-years" aria-hidden="true">
        {drawing.years.map(({ year, at }) => (
          <span key={year} style={{ left: `${at}%` }}>
            {year}
          </span>
        ))}
        <span className="use-today" style={{ left: `${today}%` }}>
          today
        </span>
      </div>
    </div>
  );
}
