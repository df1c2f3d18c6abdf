import { type TimeSpan, timeTicks } from "./time-span.ts";

/** The common axis of dates above a column of windows: today, years, and months where there is room. */
export function TimeAxis({ span }: { readonly span: TimeSpan }) {
  const ticks = timeTicks(span);
  return (
    <svg className="time-axis" width="100%" height="34" aria-hidden="true">
      <text x="0" y="12" textAnchor="middle" className="time-axis-year">
        today
      </text>
      <line x1="0" x2="0" y1="17" y2="34" stroke="var(--ink)" strokeWidth="1.5" />
      {ticks.map(({ date, percent, newYear, label }) => (
        <g key={date}>
          <line
            x1={`${percent}%`}
            x2={`${percent}%`}
            y1={newYear ? 4 : 22}
            y2="34"
            stroke={newYear ? "var(--rule-strong)" : "var(--grid)"}
          />
          {label !== null && percent > (newYear ? 6.5 : 0.5) && percent < 96 && (
            <text
              x={`${percent}%`}
              dx="4"
              y={newYear ? 12 : 30}
              className={newYear ? "time-axis-year" : "time-axis-month"}
            >
              {label}
            </text>
          )}
        </g>
      ))}
    </svg>
  );
}

/** The lines of the axis and today, drawn once and used in every row by `AxisGround`. */
export function AxisLines({ id, span }: { readonly id: string; readonly span: TimeSpan }) {
  return (
    <svg className="ink-defs" width="0" height="0" aria-hidden="true">
      <defs>
        <g id={id}>
          {timeTicks(span).map(({ date, percent, newYear }) => (
            <line
              key={date}
              x1={`${percent}%`}
              x2={`${percent}%`}
              y1="0"
              y2="100%"
              stroke={newYear ? "var(--rule-strong)" : "var(--grid)"}
            />
          ))}
          <line x1="0" x2="0" y1="0" y2="100%" stroke="var(--ink)" strokeWidth="1.5" />
        </g>
      </defs>
    </svg>
  );
}
