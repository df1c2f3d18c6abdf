import type { ReactNode } from "react";
import type { WindowDates } from "../../lib/schema/report.ts";
import type { TimeSpan } from "./time-span.ts";
import { soldAt, type WindowDrawing, windowDrawing } from "./window-drawing.ts";

/** What lies behind the windows; each is drawn once on the page and used in every row. */
interface Ground {
  /** The lines of the axis and today: the id of an `AxisLines`. */
  readonly linesId: string;
  /** Peak and closed weeks: the id of a drawing of them. */
  readonly weeksId?: string | undefined;
}

/**
 * The window: a bar from early (1 in 10 before) to late (9 in 10 before), a tick at likely. Top-end in the upper lane,
 * bottom-end in the lower. Places are in per cent, so the server draws it and nothing is measured. Needs `WindowInk`
 * once on the page. It is a drawing only: put the same in words beside it (`windowLines`).
 */
export function WindowGlyph({
  topEnd,
  bottomEnd,
  span,
  height = 44,
  ...ground
}: Ground & {
  readonly topEnd: WindowDates;
  readonly bottomEnd: WindowDates;
  readonly span: TimeSpan;
  readonly height?: number;
}) {
  return (
    <AxisGround height={height} {...ground}>
      <DatesLane dates={topEnd} span={span} part="top" y={Math.round(height * 0.29)} />
      <DatesLane dates={bottomEnd} span={span} part="bottom" y={Math.round(height * 0.71)} />
    </AxisGround>
  );
}

function DatesLane(props: {
  readonly dates: WindowDates;
  readonly span: TimeSpan;
  readonly part: "top" | "bottom";
  readonly y: number;
}) {
  const { dates, span, part, y } = props;
  return <Lane drawing={windowDrawing(dates, span)} sold={soldAt(dates, span)} part={part} y={y} />;
}

/** A stretch of the axis with its weeks and lines. */
export function AxisGround(props: Ground & { readonly height: number; readonly children?: ReactNode }) {
  return (
    <svg className="window-glyph" width="100%" height={props.height} aria-hidden="true">
      {props.weeksId !== undefined && <use href={`#${props.weeksId}`} />}
      <use href={`#${props.linesId}`} />
      {props.children}
    </svg>
  );
}

/** One window alone, for a key. */
export function WindowSample(props: {
  readonly part: "top" | "bottom";
  readonly dates: WindowDates;
  readonly span: TimeSpan;
}) {
  return (
    <svg className="window-sample" width="54" height="18" aria-hidden="true">
      <Lane drawing={windowDrawing(props.dates, props.span)} part={props.part} y={9} />
    </svg>
  );
}

/** One window in a row's drawing, `y` px from its top. A page draws it a hundred times: as few parts as it can have. */
export function Lane({
  drawing,
  sold = null,
  part,
  y,
}: {
  readonly drawing: WindowDrawing;
  /** Where the planned disposal before it lies, per cent; null: none. */
  readonly sold?: number | null;
  readonly part: "top" | "bottom";
  readonly y: number;
}) {
  if (drawing.kind === "none") return null;
  if (drawing.kind === "crossed") return <use href="#window-crossed" y={y} />;
  if (drawing.kind === "beyond") {
    return (
      <>
        <Chevron y={y} part={part} />
        <Sold at={sold} likely={null} y={y} />
      </>
    );
  }
  const { early, likely, late, modelOnly } = drawing;
  const end = late ?? 100;
  const open = late === null;
  return (
    <>
      {modelOnly ? (
        <ModelOnly early={early} end={end} open={open} y={y} part={part} />
      ) : (
        <Bar early={early} end={end} open={open} y={y} part={part} />
      )}
      {open && <Chevron y={y} part={part} />}
      <Sold at={sold} likely={likely} y={y} />
      {likely !== null && <use href="#window-likely" x={`${likely}%`} y={y} />}
    </>
  );
}

/** A hook so near the axis' start, per cent, has room for its word on the right alone, beyond a tick so near to it. */
const soldNear = { start: 12, likely: 10 };

/** The planned disposal before a window: a hook with its word, on the side that has room for it. */
function Sold({ at, likely, y }: { readonly at: number | null; readonly likely: number | null; readonly y: number }) {
  if (at === null) return null;
  if (at >= soldNear.start) return <use href="#window-sold" x={`${at}%`} y={y} />;
  const wordAt = likely !== null && likely - at < soldNear.likely ? likely : at;
  return (
    <>
      <use href="#window-sold-hook" x={`${at}%`} y={y} />
      <use href="#window-sold-word" x={`${wordAt}%`} y={y} />
    </>
  );
}

interface Shape {
  readonly early: number;
  readonly end: number;
  readonly open: boolean;
  readonly y: number;
  readonly part: "top" | "bottom";
}

function Bar({ early, end, open, y, part }: Shape) {
  const box = { x: `${early}%`, y: y - 4, width: `${Math.max(0, end - early)}%`, height: 8 };
  if (!open) return <rect {...box} fill={`var(--${part}-fill)`} stroke={`var(--${part})`} />;
  return (
    <>
      <rect {...box} fill={`url(#window-fade-${part})`} />
      <rect {...box} y={y - 4} height={1} fill={`url(#window-edge-${part})`} />
      <rect {...box} y={y + 3} height={1} fill={`url(#window-edge-${part})`} />
      <line x1={`${early}%`} x2={`${early}%`} y1={y - 4} y2={y + 4} stroke={`var(--${part})`} strokeWidth="1.2" />
    </>
  );
}

function ModelOnly(props: Shape) {
  const ink = { stroke: `var(--${props.part})`, strokeWidth: 1, strokeDasharray: "3 2.5" } as const;
  const [x1, x2] = [`${props.early}%`, `${props.end}%`];
  return (
    <>
      <line x1={x1} x2={x2} y1={props.y - 4} y2={props.y - 4} {...ink} />
      <line x1={x1} x2={x2} y1={props.y + 4} y2={props.y + 4} {...ink} />
      <line x1={x1} x2={x1} y1={props.y - 4} y2={props.y + 4} {...ink} strokeDasharray="none" />
      {!props.open && <line x1={x2} x2={x2} y1={props.y - 4} y2={props.y + 4} {...ink} strokeDasharray="none" />}
    </>
  );
}

/** The window, or what is left of it, goes on beyond the axis. */
const Chevron = ({ y, part }: Pick<Shape, "y" | "part">) => <use href={`#window-beyond-${part}`} x="100%" y={y} />;

/** What windows are drawn with, each part about its own middle. Once a page, before the first window. */
export function WindowInk() {
  return (
    <svg className="ink-defs" width="0" height="0" aria-hidden="true">
      <defs>
        <path id="window-crossed" d="M0 -6.5H8V-2H0ZM0 2H8V6.5H0ZM0 -.9H11V.9H0Z" fill="var(--past)" />
        <g id="window-likely">
          <rect x="-2.6" y="-8" width="5.2" height="16" fill="var(--surface)" />
          <rect x="-1.3" y="-8" width="2.6" height="16" fill="var(--ink)" />
        </g>
        <rect id="window-sold-hook" x="-.75" y="-9" width="1.5" height="18" fill="var(--ink)" />
        <g id="window-sold-word">
          <SoldWord side="start" />
        </g>
        <g id="window-sold">
          <use href="#window-sold-hook" />
          <SoldWord side="end" />
        </g>
        {(["top", "bottom"] as const).map((part) => (
          <g key={part}>
            <path
              id={`window-beyond-${part}`}
              d="M-5 -4.2 0 0 -5 4.2"
              fill="none"
              stroke={`var(--${part})`}
              strokeWidth="1.5"
            />
            <linearGradient id={`window-fade-${part}`}>
              <stop offset="0" stopColor={`var(--${part}-fill)`} />
              <stop offset="0.35" stopColor={`var(--${part}-fill)`} />
              <stop offset="1" stopColor={`var(--${part}-fill)`} stopOpacity="0.08" />
            </linearGradient>
            <linearGradient id={`window-edge-${part}`}>
              <stop offset="0" stopColor={`var(--${part})`} />
              <stop offset="0.35" stopColor={`var(--${part})`} />
              <stop offset="1" stopColor={`var(--${part})`} stopOpacity="0.15" />
            </linearGradient>
          </g>
        ))}
      </defs>
    </svg>
  );
}

const SoldWord = ({ side }: { readonly side: "start" | "end" }) => (
  <text
    x={side === "start" ? 5 : -4}
    y="4"
    textAnchor={side}
    fontSize="11.5"
    fontWeight="600"
    fill="var(--ink)"
    stroke="var(--surface)"
    strokeWidth="4"
    strokeLinejoin="round"
    paintOrder="stroke"
  >
    sold
  </text>
);
