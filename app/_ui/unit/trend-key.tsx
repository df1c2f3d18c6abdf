import type { Formats } from "@/lib/viewing/formats.ts";
import { departureWords } from "./departures.ts";
import { departureShape } from "./trend-mark-parts.ts";
import type { LimitLine } from "./trend-parts.ts";
import type { TrendSeries } from "./trend-series.ts";

/** Key of the trend chart; on small screens also what the chart then has no room to write. */
export function TrendKey(props: {
  readonly trend: TrendSeries;
  readonly colour: string;
  readonly f: Formats;
  readonly windowClass: "top" | "bottom";
  /** Cylinders whose points are square, in words; null: none. */
  readonly squares: string | null;
}) {
  const { trend, colour, f } = props;
  return (
    <ul className="unit-key">
      {trend.hasFan && (
        <li>
          <svg width="28" height="12" aria-hidden="true">
            <rect width="28" height="12" fill={colour} opacity="0.15" />
            <rect y="3" width="28" height="6" fill={colour} opacity="0.22" />
            <path d="M0 6H28" stroke={colour} strokeWidth="2" strokeDasharray="6 4" />
          </svg>
          likely course, 5 and 8 in 10 range
        </li>
      )}
      {trend.crossing?.status === "projected" && (
        <li>
          <svg width="28" height="16" aria-hidden="true">
            <rect
              x="0.5"
              y="4"
              width="27"
              height="8"
              fill={`var(--${props.windowClass}-fill)`}
              stroke={`var(--${props.windowClass})`}
            />
            <rect x="10" width="2.6" height="16" fill="var(--ink)" />
          </svg>
          meter at which the limit is met
        </li>
      )}
      {trend.hasWhiskers && (
        <li>
          <svg width="10" height="18" aria-hidden="true">
            <path d="M5 0V18" stroke={colour} strokeWidth="1.25" />
            <circle cx="5" cy="9" r="4" fill={colour} />
          </svg>
          2 in 3 repeats of the test would read within the whisker
        </li>
      )}
      {trend.wet.length > 0 && (
        <li>
          <svg width="12" height="11" aria-hidden="true">
            <path d="M1.5 1.5H10.5L6 10Z" fill="none" stroke={colour} strokeWidth="1.5" />
          </svg>
          wet: with oil, evidence for causes, not judged
        </li>
      )}
      {trend.departures.map((d) => (
        <li key={`${d.cylinder} ${d.x}`}>
          <svg width="16" height="16" aria-hidden="true">
            <path d={departureShape(7)} transform="translate(8 8)" fill="none" stroke="var(--ink)" strokeWidth="1.75" />
          </svg>
          early warning: {departureWords([d.cylinder], trend.cylinders)} at the test of {f.date(d.date)}
        </li>
      ))}
      {trend.doubtful.length > 0 && (
        <li>
          <svg width="10" height="10" aria-hidden="true">
            <circle cx="5" cy="5" r="3.5" fill="none" stroke="var(--ink)" strokeWidth="1.5" />
          </svg>
          kept, counts less or not at all
        </li>
      )}
      {trend.isCrowded && (
        <li>points of cylinder {trend.cylinder} alone; the others have theirs in the small charts</li>
      )}
      {props.squares !== null && (
        <li>
          <svg width="10" height="10" aria-hidden="true">
            <rect x="1" y="1" width="8" height="8" fill="var(--ink-2)" />
          </svg>
          {props.squares}
        </li>
      )}
      {trend.limits.map(({ kind, value }) => (
        <li key={kind} className="unit-small-only">
          <svg width="28" height="4" aria-hidden="true">
            <path d="M0 2H28" {...limitStrokes[kind]} />
          </svg>
          {kind === "usual-limit" ? "limit for rings" : kind} {f.level(value, trend.unit)}
        </li>
      ))}
      {trend.repairs.map((repair) => (
        <li
          key={`${repair.x} ${repair.date} ${repair.words}`}
          // Several may stand too close for their names in the chart; one assumed needs its reason.
          className={trend.repairs.length > 1 || repair.assumed ? undefined : "unit-small-only"}
        >
          <span className="unit-letter" data-assumed={repair.assumed} aria-hidden="true">
            {repair.letter}
          </span>
          {f.date(repair.date)}: {repair.assumed ? f.words(repair.words) : repair.words}
        </li>
      ))}
      {trend.doubts.map((doubt) => (
        <li key={`${doubt.x} ${doubt.words}`} className={trend.doubts.length > 1 ? undefined : "unit-small-only"}>
          <span className="unit-at">at {f.meter(doubt.x, trend.meterUnit)}</span>
          {f.words(doubt.words)}
          {doubt.offAxis.map((o) => `; cyl ${o.cylinder} read ${f.level(o.value, trend.unit)}`).join("")}
        </li>
      ))}
    </ul>
  );
}

const limitStrokes = {
  limit: { stroke: "var(--past)", strokeWidth: 2 },
  plan: { stroke: "var(--plan)", strokeWidth: 1.5, strokeDasharray: "7 4" },
  watch: { stroke: "var(--watch)", strokeWidth: 1.5, strokeDasharray: "2 3" },
  "usual-limit": { stroke: "var(--past)", strokeWidth: 1 },
} as const satisfies Record<LimitLine["kind"], object>;
