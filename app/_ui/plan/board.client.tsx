"use client";

import { useRouter } from "next/navigation";
import { type KeyboardEvent, type PointerEvent, useRef, useState } from "react";
import { AppLink } from "../app-link.client.tsx";
import { type PlanView, planAddress } from "./address.ts";
import type { BoardBar, BoardData, BoardDepot } from "./board-data.ts";

const laneHeight = 36;
const loadHeight = 40;
/** Less than that is a click by an unsteady hand. */
const leastDragPx = 6;

const percent = (weeks: number, of: number): string => `${((100 * weeks) / of).toFixed(3)}%`;

/**
 * Weeks and depots: a bar for each booking, what the hours of each week are taken by below. A bar is a link that chooses it;
 * it is moved by the left and right keys or dragged, and what that costs is told before it is taken.
 */
export function PlanBoard({ board, view }: { readonly board: BoardData; readonly view: PlanView }) {
  const weeks = board.columns.length;
  return (
    <div className="plan-board" style={{ "--weeks": weeks } as React.CSSProperties}>
      <div className="plan-weeks" aria-hidden="true">
        <span className="plan-side second">week from</span>
        <div className="plan-axis">
          {board.columns.map(({ monday, week, date }, i) => (
            <span
              key={monday}
              style={{ left: percent(i, weeks) }}
              data-labelled={i % labelEvery(weeks) === 0 || undefined}
            >
              <b>{week}</b>
              <span className="plan-date">{date}</span>
            </span>
          ))}
        </div>
      </div>
      {board.depots.map((of) => (
        <DepotBlock key={of.depot} of={of} board={board} view={view} />
      ))}
    </div>
  );
}

/** So many weeks stand between two dates that are told. */
const labelEvery = (weeks: number): number => (weeks > 60 ? 8 : weeks > 30 ? 4 : 2);

function DepotBlock({
  of,
  board,
  view,
}: {
  readonly of: BoardDepot;
  readonly board: BoardData;
  readonly view: PlanView;
}) {
  const weeks = board.columns.length;
  const field = useRef<HTMLDivElement>(null);
  const bottom = of.lanes * laneHeight;
  return (
    <section className="plan-depot" aria-label={`Depot ${of.depot}`}>
      <div className="plan-side">
        <h3>{of.depot}</h3>
        <p className="second small">{of.says}</p>
      </div>
      <div className="plan-field" ref={field} style={{ height: bottom + loadHeight }}>
        {of.peak.map(({ from, to }) => (
          <span
            key={`peak ${from}`}
            className="plan-peak"
            style={{ left: percent(from, weeks), width: percent(to - from, weeks) }}
          />
        ))}
        {of.closed.map(({ from, to }) => (
          <span
            key={`closed ${from}`}
            className="plan-closed"
            style={{ left: percent(from, weeks), width: percent(to - from, weeks) }}
          >
            {to - from > weeks / 10 && <span className="plan-closed-word">closed</span>}
          </span>
        ))}
        <Load of={of} top={bottom} />
        {of.ghost !== null && (
          <span
            className="plan-ghost"
            style={{
              left: percent(of.ghost.from, weeks),
              width: percent(of.ghost.to - of.ghost.from, weeks),
              top: of.ghost.lane * laneHeight + 4,
            }}
            aria-hidden="true"
          >
            {of.ghost.text}
          </span>
        )}
        {of.windows.map((window, i) => (
          <svg
            key={window.part}
            className="plan-window"
            style={{ top: bottom - laneHeight + 12 + 12 * i }}
            width="100%"
            height="16"
            aria-hidden="true"
          >
            <line
              x1={percent(window.early, weeks)}
              x2={window.late === null ? "100%" : percent(window.late, weeks)}
              y1="8"
              y2="8"
              stroke={`var(--${window.part})`}
              strokeWidth="2.5"
            />
            <line
              x1={percent(window.early, weeks)}
              x2={percent(window.early, weeks)}
              y1="3"
              y2="13"
              stroke={`var(--${window.part})`}
              strokeWidth="1.5"
            />
            {window.late !== null && (
              <line
                x1={percent(window.late, weeks)}
                x2={percent(window.late, weeks)}
                y1="3"
                y2="13"
                stroke={`var(--${window.part})`}
                strokeWidth="1.5"
              />
            )}
            {window.likely !== null && (
              <line
                x1={percent(window.likely, weeks)}
                x2={percent(window.likely, weeks)}
                y1="1"
                y2="15"
                stroke="var(--ink)"
                strokeWidth="2.6"
              />
            )}
          </svg>
        ))}
        {of.bars.map((bar) => (
          <Bar key={bar.key} bar={bar} board={board} view={view} width={() => field.current?.clientWidth ?? 0} />
        ))}
      </div>
    </section>
  );
}

function Load({ of, top }: { readonly of: BoardDepot; readonly top: number }) {
  const weeks = of.load.length;
  const room = loadHeight - 12;
  return (
    <svg
      className="plan-load"
      style={{ top }}
      width="100%"
      height={loadHeight}
      role="img"
      aria-label={`Hours booked at ${of.depot}: ${of.load.flatMap(({ used, says }) => (used > 0 ? says : [])).join("; ") || "none"}`}
    >
      {of.load.map(({ used, has, over, says }, week) => {
        const height = Math.min(loadHeight, (room * used) / of.most);
        const ceiling = loadHeight - (room * has) / of.most;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a week has no other name here.
          <g key={week}>
            <title>{says}</title>
            <rect
              x={percent(week + 0.12, weeks)}
              width={percent(0.76, weeks)}
              y={loadHeight - height}
              height={height}
              fill="var(--ghost)"
            />
            {has > 0 && (
              <line
                x1={percent(week, weeks)}
                x2={percent(week + 1, weeks)}
                y1={ceiling}
                y2={ceiling}
                stroke="var(--ink-3)"
                strokeWidth="1"
              />
            )}
            {over !== null && (
              <>
                <rect
                  x={percent(week + 0.12, weeks)}
                  width={percent(0.76, weeks)}
                  y={loadHeight - height}
                  height={Math.max(2, height - (loadHeight - ceiling))}
                  fill="var(--past)"
                />
                <text
                  x={percent(week + 0.5, weeks)}
                  y={Math.max(9, ceiling - 3)}
                  textAnchor="middle"
                  className="plan-over"
                >
                  {over}
                </text>
              </>
            )}
          </g>
        );
      })}
    </svg>
  );
}

function Bar(props: {
  readonly bar: BoardBar;
  readonly board: BoardData;
  readonly view: PlanView;
  readonly width: () => number;
}) {
  const { bar, board, view } = props;
  const router = useRouter();
  const weeks = board.columns.length;
  const [dragged, setDragged] = useState(0);
  const drag = useRef<{ readonly from: number; moved: boolean } | null>(null);
  const place = {
    left: percent(bar.from, weeks),
    width: percent(Math.max(0.6, bar.to - bar.from), weeks),
    top: bar.lane * laneHeight + 4,
  };
  const inside = (
    <span className="plan-bar-words" data-beside={bar.isShort || undefined}>
      <b>{bar.text}</b> <span className="plan-note">{bar.note}</span>
    </span>
  );
  if (bar.href === null) {
    return (
      <span className="plan-bar" data-kind="other" style={place} title={bar.says}>
        {inside}
      </span>
    );
  }
  const moveTo = (week: number) => {
    const at = Math.min(weeks - 1, Math.max(0, week));
    const monday = board.columns[at]?.monday ?? bar.start;
    router.replace(planAddress({ ...view, unit: bar.unit, scope: bar.scope, to: monday, split: false }), {
      scroll: false,
    });
  };
  const week = Math.floor(bar.from);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
      event.preventDefault();
      moveTo(week + (event.key === "ArrowLeft" ? -1 : 1));
    }
    if (event.key === "Escape" && view.to !== null)
      router.replace(planAddress({ ...view, to: null }), { scroll: false });
  };
  const onPointerDown = (event: PointerEvent<HTMLElement>) => {
    if (event.button !== 0 || event.pointerType === "touch") return;
    drag.current = { from: event.clientX, moved: false };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>) => {
    if (drag.current === null) return;
    const by = event.clientX - drag.current.from;
    if (Math.abs(by) >= leastDragPx) drag.current.moved = true;
    if (drag.current.moved) setDragged(by);
  };
  const onPointerUp = (event: PointerEvent<HTMLElement>) => {
    if (drag.current?.moved && props.width() > 0)
      moveTo(week + Math.round(((event.clientX - drag.current.from) * weeks) / props.width()));
    setDragged(0);
  };
  return (
    <AppLink
      href={bar.href}
      scroll={false}
      replace
      variant="bare"
      draggable={false}
      className="plan-bar"
      data-kind={bar.kind}
      data-chosen={bar.isChosen || undefined}
      data-pinned={bar.isPinned || undefined}
      aria-current={bar.isChosen || undefined}
      aria-label={`${bar.says}. Choose; left and right keys move it`}
      title={bar.says}
      style={{ ...place, ...(dragged === 0 ? {} : { transform: `translateX(${dragged}px)`, zIndex: 3 }) }}
      onKeyDown={onKeyDown}
      onPointerDown={onPointerDown}
      onPointerMove={onPointerMove}
      onPointerUp={onPointerUp}
      onPointerCancel={() => {
        drag.current = null;
        setDragged(0);
      }}
      onDragStart={(event) => event.preventDefault()}
      onClick={(event) => {
        // What was dragged was not clicked.
        if (drag.current?.moved) event.preventDefault();
        drag.current = null;
      }}
    >
      {inside}
    </AppLink>
  );
}
