import type { Formats } from "../../../lib/viewing/formats.ts";
import type { TimeSpan } from "../time-span.ts";
import { type DepotWeeks, placeOf, weekWords } from "./depot-weeks.ts";

const closedInk = "fleet-closed-weeks";

/** One drawing a depot, used by each of its rows: peak weeks pale, closed weeks hatched. */
export function WeekDrawings(props: {
  readonly weeks: readonly DepotWeeks[];
  readonly span: TimeSpan;
  readonly f: Formats;
}) {
  const { weeks, span, f } = props;
  return (
    <svg className="ink-defs" width="0" height="0" aria-hidden="true">
      <defs>
        {/* Its side divides the height of a row, so that the lines run on from row to row. */}
        <pattern id={closedInk} width="5.5" height="5.5" patternUnits="userSpaceOnUse">
          <path d="M-1 1 1 -1M0 5.5 5.5 0M4.5 6.5 6.5 4.5" stroke="var(--closed)" strokeWidth="1.1" />
        </pattern>
        {weeks.map(({ depot, id, spans }) => (
          <g key={depot} id={id}>
            {(["peak", "closed"] as const).flatMap((kind) =>
              spans
                .filter((its) => its.kind === kind)
                .map((its) => {
                  const { start, width } = placeOf(its, span);
                  return (
                    <rect
                      key={`${kind} ${its.from} ${its.to}`}
                      x={`${start}%`}
                      width={`${width}%`}
                      y="0"
                      height="100%"
                      fill={kind === "peak" ? "var(--peak)" : `url(#${closedInk})`}
                    >
                      <title>{`${depot}: ${weekWords(its, span, f)}`}</title>
                    </rect>
                  );
                }),
            )}
          </g>
        ))}
      </defs>
    </svg>
  );
}

/** A patch of each form for the key. Needs `WeekDrawings` on the page. */
export function WeekSample({ kind }: { readonly kind: "peak" | "closed" }) {
  return (
    <svg className="week-sample" width="22" height="16" aria-hidden="true">
      <rect width="22" height="16" fill={kind === "peak" ? "var(--peak)" : `url(#${closedInk})`} />
    </svg>
  );
}

/** The same in words, for those who do not see the drawing. */
export function WeeksInWords(props: {
  readonly weeks: readonly DepotWeeks[];
  readonly span: TimeSpan;
  readonly f: Formats;
}) {
  return (
    <ul className="visually-hidden" aria-label="Peak and closed weeks of the depots">
      {props.weeks.map(({ depot, spans }) => (
        <li key={depot}>
          {depot}: {spans.map((its) => weekWords(its, props.span, props.f)).join("; ")}
        </li>
      ))}
    </ul>
  );
}
