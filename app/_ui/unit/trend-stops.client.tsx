"use client";

import { type KeyboardEvent, type PointerEvent, type RefObject, useRef, useState } from "react";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import { useFormats } from "../formats.client.tsx";
import { departureWords } from "./departures.ts";
import { lineLabelWords } from "./line-labels.ts";
import type { TrendSeries } from "./trend-series.ts";
import type { TrendStop } from "./trend-stops.ts";

/**
 * The tests of the chart as a list that lies over it: a pointer, a finger or the focus on one tells what was read and
 * why it is doubted. One stop for the Tab key; arrows go from test to test, Escape hides what is told.
 */
export function TrendStops(props: {
  readonly plot: RefObject<HTMLUListElement | null>;
  readonly stops: readonly TrendStop[];
  readonly trend: TrendSeries;
}) {
  const { stops, trend } = props;
  const f = useFormats();
  const [told, tell] = useState<string | null>(null);
  const [current, setCurrent] = useState<string | null>(null);
  const buttons = useRef(new Map<string, HTMLButtonElement>());
  const tabStop = stops.find((s) => s.key === current)?.key ?? stops.at(-1)?.key;

  // Targets are larger than the points and lie over each other: what counts is the point nearest to finger or pointer.
  const nearest = (event: { readonly clientX: number; readonly clientY: number }): string | null => {
    const box = props.plot.current?.getBoundingClientRect();
    if (box === undefined) return null;
    const away = (stop: TrendStop) => {
      const place = placeOf(stop, trend);
      return Math.hypot(event.clientX - box.left - place.x * box.width, event.clientY - box.top - place.y * box.height);
    };
    return stops.toSorted((a, b) => away(a) - away(b))[0]?.key ?? null;
  };
  const point = (event: PointerEvent) => event.pointerType === "mouse" && tell(nearest(event));

  const onKeyDown = (event: KeyboardEvent) => {
    const at = stops.findIndex((s) => s.key === tabStop);
    const to = { ArrowLeft: at - 1, ArrowRight: at + 1, Home: 0, End: stops.length - 1 }[event.key];
    if (event.key === "Escape") tell(null);
    const next = to === undefined ? undefined : stops[to];
    if (to === undefined) return;
    // Arrows move among the tests here, not the chart below.
    event.preventDefault();
    event.stopPropagation();
    if (next !== undefined) buttons.current.get(next.key)?.focus();
  };

  return (
    <ul
      className="trend-stops"
      ref={props.plot}
      aria-label="Tests in the chart"
      onKeyDown={onKeyDown}
      onPointerDown={(event) => event.target === event.currentTarget && tell(null)}
    >
      {stops.map((stop) => {
        const place = placeOf(stop, trend);
        const words = stopWords(stop, trend, f);
        return (
          <li key={stop.key} style={{ left: `${100 * place.x}%`, top: `${100 * place.y}%` }}>
            <button
              type="button"
              ref={(element) => {
                if (element === null) buttons.current.delete(stop.key);
                else buttons.current.set(stop.key, element);
              }}
              tabIndex={stop.key === tabStop ? 0 : -1}
              aria-label={words.join(" ")}
              onFocus={() => {
                setCurrent(stop.key);
                tell(stop.key);
              }}
              onClick={(event) => {
                // A key's click lies on no point.
                const key = (event.detail > 0 ? nearest(event) : null) ?? stop.key;
                buttons.current.get(key)?.focus();
                // Not every browser gives the focus to a button that a finger taps.
                tell(key);
              }}
              onBlur={() => tell(null)}
              onPointerEnter={point}
              onPointerMove={point}
              onPointerLeave={(event) => event.pointerType === "mouse" && tell(null)}
            />
            {told === stop.key && <span className="trend-told-at" aria-hidden="true" />}
            {told === stop.key && (
              <div
                className="trend-told"
                aria-hidden="true"
                data-below={place.y < 0.45}
                style={{ transform: `translate(${-100 * place.x}%, ${place.y < 0.45 ? "0" : "-100%"})` }}
              >
                {words.map((line) => (
                  <p key={line}>{line}</p>
                ))}
              </div>
            )}
          </li>
        );
      })}
    </ul>
  );
}

function placeOf({ x, y }: TrendStop, trend: TrendSeries): { x: number; y: number } {
  const share = (value: number, [from, to]: readonly [number, number]) => (value - from) / (to - from);
  return { x: share(x, trend.x.domain), y: 1 - share(y, trend.y.domain) };
}

/** What one test says, a line a matter: when, what was read, what is doubted. */
function stopWords(stop: TrendStop, trend: TrendSeries, f: Formats): string[] {
  const { unit, meterUnit, cylinder } = trend;
  const level = (value: number) => f.level(value, unit);
  const own = stop.readings.find((r) => r.cylinder === cylinder);
  const others = stop.readings.filter((r) => r.cylinder !== cylinder);
  const spread = stop.sd === null ? "" : `, ±${f.levelFigure(stop.sd, unit, unit === "%" && stop.sd < 10 ? 1 : 0)}`;
  return [
    `${f.date(stop.date)}, ${f.meter(stop.x, meterUnit)}.`,
    ...(stop.wet
      ? [`Wet, cylinder ${cylinder}: ${level(own?.value ?? 0)}. Evidence for causes, not judged.`]
      : [
          ...(own === undefined ? [] : [`Cylinder ${cylinder}: ${level(own.value)}${spread}.`]),
          ...(others.length === 0
            ? []
            : [
                `${others.map((r) => `cyl ${r.cylinder}: ${f.levelFigure(r.value, unit)}`).join(", ")} ${f.levelUnit(unit)}.`,
              ]),
          ...(stop.departed.length === 0
            ? []
            : [`Early warning: ${departureWords(stop.departed, trend.cylinders)} at this test.`]),
          ...stop.doubts.map(({ words, cylinders }) =>
            cylinders.length === stop.readings.length
              ? `${sentenceWords(f.words(words))}.`
              : `${lineLabelWords(cylinders)}: ${f.words(words)}.`,
          ),
        ]),
  ];
}
