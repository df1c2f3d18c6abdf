import type { UnitChange } from "../../../lib/changes/compare.ts";
import type { WindowMove } from "../../../lib/changes/window-move.ts";
import type { Standing } from "../../../lib/schema/changes.ts";
import type { WindowDates } from "../../../lib/schema/report.ts";
import type { TimeSpan } from "../time-span.ts";
import { windowDrawing } from "../window-drawing.ts";
import { AxisGround, Lane } from "../window-glyph.tsx";
import type { ToldChange } from "./told-change.ts";

/** Height that the two lanes need, px. */
const lanesHeight = 62;
const lanes = { topEnd: 20, bottomEnd: 50 } as const;

/**
 * A unit's windows as they stand on the common axis, and above each that moved the earlier one as a ghost. A drawing
 * only: what moved stands in words beside it.
 */
export function MovedWindows(props: {
  readonly now: Standing;
  readonly change: UnitChange;
  readonly span: TimeSpan;
  readonly linesId: string;
}) {
  const { now, change, span } = props;
  return (
    <AxisGround height={lanesHeight} linesId={props.linesId}>
      <Ghost move={change.topEnd} span={span} y={lanes.topEnd} />
      <Lane drawing={windowDrawing(now.topEnd, span)} part="top" y={lanes.topEnd} />
      <Ghost move={change.bottomEnd} span={span} y={lanes.bottomEnd} />
      <Lane drawing={windowDrawing(now.bottomEnd, span)} part="bottom" y={lanes.bottomEnd} />
    </AxisGround>
  );
}

/** Whether there is anything to draw on the axis. */
export const hasWindows = ({ now, change }: Pick<ToldChange, "now" | "change">, span: TimeSpan): boolean =>
  [now?.topEnd, now?.bottomEnd, change.topEnd?.from, change.bottomEnd?.from].some(
    (dates) => dates !== undefined && windowDrawing(dates, span).kind !== "none",
  );

function Ghost({ move, span, y }: { readonly move: WindowMove | null; readonly span: TimeSpan; readonly y: number }) {
  return move === null ? null : <GhostLane dates={move.from} span={span} y={y - 12} />;
}

/** A window that no longer stands: half as high, in the ghost's colour. */
export function GhostLane(props: { readonly dates: WindowDates; readonly span: TimeSpan; readonly y: number }) {
  const { y } = props;
  const drawing = windowDrawing(props.dates, props.span);
  if (drawing.kind === "none") return null;
  if (drawing.kind === "crossed") return <rect className="ghost-bar" x="0" y={y - 2} width="11" height="4" />;
  if (drawing.kind === "beyond") {
    return (
      <svg x="100%" y={y - 4} width="1" height="8" overflow="visible" aria-hidden="true">
        <path className="ghost-line" d="M-4 0.8 0 4 -4 7.2" fill="none" />
      </svg>
    );
  }
  const { early, likely, late } = drawing;
  return (
    <>
      <rect
        className="ghost-bar"
        x={`${early}%`}
        y={y - 2}
        width={`${Math.max(0.4, (late ?? 100) - early)}%`}
        height="4"
      />
      {likely !== null && <line className="ghost-line" x1={`${likely}%`} x2={`${likely}%`} y1={y - 4} y2={y + 4} />}
    </>
  );
}
