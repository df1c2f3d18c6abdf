"use client";

import { type PointerEvent, type RefObject, useEffect, useRef } from "react";
import type { Domain } from "./axis.ts";
import { type Extent, viewedDomain, zoomed } from "./axis-view.ts";

/** How a chart follows the hand: `hold` while it moves, `settle` when it lets go, `drop` when the page takes over. */
interface Grip {
  /** Whether there is a drawing to take hold of. */
  readonly isDrawn: boolean;
  readonly extent: Extent;
  readonly domain: Domain;
  readonly hold: (domain: Domain) => void;
  readonly settle: (domain: Domain) => void;
  readonly drop: () => void;
}

/** Pixels that a pointer moves before it drags; less is a click or a tap. */
const slackPx = 5;
/** After the wheel has rested this long, what it did stands in the address. */
const wheelRestMs = 250;

/**
 * Drag moves, two fingers zoom, and so does the wheel with Ctrl: the bare wheel and a finger that goes up or down scroll
 * the page, as everywhere else (`touch-action: pan-y` in the style sheet leaves them to it). `plot` covers the drawing
 * between the axes.
 */
export function useTrendGestures(plot: RefObject<HTMLElement | null>, { isDrawn, ...grip }: Grip) {
  const now = useRef(grip);
  useEffect(() => {
    now.current = grip;
  });

  useEffect(() => {
    const box = plot.current;
    if (!isDrawn || box === null) return;
    let rest: ReturnType<typeof setTimeout> | undefined;
    const onWheel = (event: WheelEvent) => {
      if (!event.ctrlKey && !event.metaKey) return;
      event.preventDefault();
      const { extent, domain, hold } = now.current;
      const at = valueAt(box, domain, event.clientX);
      const times = Math.exp(-Math.max(-60, Math.min(60, event.deltaY)) / 150);
      const next = zoomed(extent, domain, { times, at });
      hold(next);
      clearTimeout(rest);
      // What the hand did, not what is drawn by then: an address that is just coming in would undo it.
      rest = setTimeout(() => now.current.settle(next), wheelRestMs);
    };
    // Not passive: with Ctrl held the browser would zoom the whole page instead.
    box.addEventListener("wheel", onWheel, { passive: false });
    return () => {
      clearTimeout(rest);
      box.removeEventListener("wheel", onWheel);
    };
  }, [plot, isDrawn]);

  const fingers = useRef(new Map<number, Finger>());
  const isMoving = useRef(false);
  const last = useRef<Domain | null>(null);

  /** Each finger keeps the place on the axis that it was put on. */
  const grab = (box: HTMLElement) => {
    for (const finger of fingers.current.values()) finger.value = valueAt(box, now.current.domain, finger.x);
  };

  return {
    onPointerDown(event: PointerEvent) {
      const box = plot.current;
      if (box === null || (event.pointerType === "mouse" && event.button !== 0) || fingers.current.size === 2) return;
      fingers.current.set(event.pointerId, { x: event.clientX, startX: event.clientX, value: 0 });
      grab(box);
    },
    onPointerMove(event: PointerEvent) {
      const box = plot.current;
      const finger = fingers.current.get(event.pointerId);
      if (box === null || finger === undefined) return;
      finger.x = event.clientX;
      if (!isMoving.current && fingers.current.size < 2 && Math.abs(finger.x - finger.startX) < slackPx) return;
      if (!isMoving.current) {
        isMoving.current = true;
        last.current = null;
        // From here on the drag is the chart's, wherever the pointer goes; a click before it stays a click.
        event.currentTarget.setPointerCapture(event.pointerId);
      }
      const next = under([...fingers.current.values()], box, now.current.domain);
      if (next === null) return;
      last.current = viewedDomain(now.current.extent, { from: next[0], to: next[1] });
      now.current.hold(last.current);
    },
    onPointerUp(event: PointerEvent) {
      if (!fingers.current.delete(event.pointerId)) return;
      if (fingers.current.size > 0 && plot.current !== null) return grab(plot.current);
      if (isMoving.current && last.current !== null) now.current.settle(last.current);
      isMoving.current = false;
    },
    onPointerCancel() {
      fingers.current.clear();
      if (isMoving.current) now.current.drop();
      isMoving.current = false;
    },
  };
}

interface Finger {
  x: number;
  readonly startX: number;
  value: number;
}

function shareAt(box: HTMLElement, clientX: number): number {
  const { left, width } = box.getBoundingClientRect();
  return width > 0 ? (clientX - left) / width : 0.5;
}

const valueAt = (box: HTMLElement, [from, to]: Domain, clientX: number) => from + shareAt(box, clientX) * (to - from);

/** The domain that has each finger's value under it; null: two fingers on one spot say nothing. */
function under(fingers: readonly Finger[], box: HTMLElement, [from, to]: Domain): Domain | null {
  const [a, b] = fingers;
  if (a === undefined) return null;
  const at = shareAt(box, a.x);
  if (b === undefined) return [a.value - at * (to - from), a.value + (1 - at) * (to - from)];
  const apart = shareAt(box, b.x) - at;
  const span = (b.value - a.value) / apart;
  return Math.abs(apart) < 0.02 || span <= 0 ? null : [a.value - at * span, a.value + (1 - at) * span];
}
