import type { DepotPeriod } from "../../../lib/schema/depot.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { periodWords, weeksWords } from "./depot-words.ts";
import { yearStrip } from "./year-strip.ts";

/** The pattern of closed weeks; once on a page that draws strips. */
export function StripInk() {
  return (
    <svg className="ink-defs" width="0" height="0" aria-hidden="true">
      <defs>
        <pattern id="strip-closed" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect width="6" height="6" fill="var(--surface)" />
          <rect width="3" height="6" fill="var(--rule-strong)" />
        </pattern>
      </defs>
    </svg>
  );
}

/** A depot's year, week by week, and the same in words below. */
export function YearStrip(props: {
  readonly f: Formats;
  readonly periods: readonly DepotPeriod[];
  readonly asOf: IsoDate;
}) {
  const { f, periods } = props;
  const { year, weeks, spans, months, weekMarks, today } = yearStrip(periods, props.asOf);
  return (
    <div className="year-strip">
      <svg width="100%" height="58" aria-hidden="true">
        {months.map(({ percent, date }) => (
          <text key={date} x={`${percent}%`} y="11" className="strip-text">
            {f
              .month(date)
              .replace(/[^\p{L}]/gu, "")
              .slice(0, 3)}
          </text>
        ))}
        <rect x="0" width="100%" y="17" height="22" fill="var(--surface)" stroke="var(--rule-strong)" />
        {spans.map(({ kind, percent, width }) => (
          <rect
            key={`${kind} ${percent}`}
            x={`${percent}%`}
            width={`${width}%`}
            y="17"
            height="22"
            fill={kind === "peak" ? "var(--peak)" : "url(#strip-closed)"}
            stroke={kind === "peak" ? "var(--plan)" : "var(--rule-strong)"}
          />
        ))}
        {months.slice(1).map(({ percent, date }) => (
          <line key={date} x1={`${percent}%`} x2={`${percent}%`} y1="13" y2="39" stroke="var(--rule)" />
        ))}
        {weekMarks.map(({ percent, label }) => (
          <g key={label}>
            <line x1={`${percent}%`} x2={`${percent}%`} y1="39" y2="44" stroke="var(--rule-strong)" />
            <text x={`${percent}%`} y="56" className="strip-text">
              {label === "1" ? `week ${label}` : label}
            </text>
          </g>
        ))}
        <line x1={`${today}%`} x2={`${today}%`} y1="13" y2="43" stroke="var(--ink)" strokeWidth="1.5" />
      </svg>
      {periods.length === 0 ? (
        <p className="second small">
          {year}, {weeks} weeks: no peak and no closed weeks are told.
        </p>
      ) : (
        <ul className="strip-words small">
          {periods.map((period) => (
            <li key={periodWords(f, period)} data-kind={period.kind}>
              {sentenceWords(periodWords(f, period))}
              {period.repeat === "yearly" && <span className="second"> ({weeksWords(f, period, year)})</span>}
              {period.remarks !== null && <span className="second">: {period.remarks}</span>}
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
