"use client";

import { useMounted } from "@mantine/hooks";
import { usePathname, useSearchParams } from "next/navigation";
import { type KeyboardEvent, useMemo, useRef, useState } from "react";
import { useFormats } from "../formats.client.tsx";
import { type Domain, dateAtX } from "./axis.ts";
import { askedView, readAskedView, sameDomain, viewedDomain, withView } from "./axis-view.ts";
import { TrendChart } from "./trend-chart.client.tsx";
import { meterExtent } from "./trend-domains.ts";
import { useTrendGestures } from "./trend-gestures.client.ts";
import { trendSeries } from "./trend-series.ts";
import type { TrendSource } from "./trend-source.ts";
import { TrendStops } from "./trend-stops.client.tsx";
import { trendStops } from "./trend-stops.ts";
import { TrendTools, viewSteps } from "./trend-tools.client.tsx";

/**
 * The large chart and the part of the axis that it shows, which lives in the address. The first change of the whole
 * makes an entry of its own in the browser's history and later ones replace it, so that Back leads to the whole again.
 */
export function TrendPanel(props: {
  readonly source: TrendSource;
  readonly title: string;
  readonly label: string;
  readonly windowClass: "top" | "bottom";
}) {
  const { source } = props;
  const f = useFormats();
  const search = useSearchParams();
  const path = usePathname();
  const fields = search.toString();
  const extent = useMemo(() => meterExtent(source), [source]);
  const asked = readAskedView((name) => search.get(name));
  // What the hand holds goes before the address, until the address says something else.
  const [held, setHeld] = useState<{ readonly domain: Domain; readonly under: string } | null>(null);
  const domain = held?.under === fields ? held.domain : viewedDomain(extent, asked);
  const shown = useMemo(
    () => ({ meter: f.meterFactor(source.meterUnit), level: f.levelFactor(source.chart.unit) }),
    [f, source],
  );
  const [from, to] = domain;
  // The chart measures its box before it draws: on the server all this would be worked out for an empty one.
  const isInBrowser = useMounted();
  const trend = useMemo(
    () => (isInBrowser ? trendSeries(source, [from, to], shown) : null),
    [isInBrowser, source, from, to, shown],
  );
  const stops = useMemo(
    () => (trend === null ? [] : trendStops(source, trend.x.domain, trend.y.domain)),
    [source, trend],
  );
  const plot = useRef<HTMLUListElement>(null);

  const hrefWith = (now: URLSearchParams, next: Domain) => {
    const query = withView(now.entries(), askedView(extent, next));
    return query === "" ? path : `${path}?${query}`;
  };
  const show = (next: Domain) => {
    setHeld({ domain: next, under: fields });
    // The address itself, not what was last drawn of it: keys may be pressed faster than the page follows.
    const now = new URLSearchParams(window.location.search);
    const before = readAskedView((name) => now.get(name));
    const href = hrefWith(now, next);
    if (href === hrefWith(now, viewedDomain(extent, before))) return;
    if (before.from === null && before.to === null) window.history.pushState(null, "", href);
    else window.history.replaceState(null, "", href);
  };
  const gestures = useTrendGestures(plot, {
    isDrawn: trend !== null,
    extent,
    domain,
    hold: (next) => setHeld({ domain: next, under: fields }),
    settle: show,
    drop: () => setHeld(null),
  });

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const steps = viewSteps(extent, domain, source.xNow);
    const next = {
      "+": steps.closer,
      "=": steps.closer,
      "-": steps.wider,
      ArrowLeft: steps.earlier,
      ArrowRight: steps.later,
      "0": steps.whole,
      Home: steps.whole,
    }[event.key];
    if (next === undefined) return;
    event.preventDefault();
    show(next);
  };

  const lastRepair = source.repairs.findLast((r) => r.scope !== "adjustment" && r.x < source.xNow);
  const since = lastRepair?.x ?? null;
  const sinceRepair: Domain | null =
    since === null || since < extent.reach[0]
      ? null
      : viewedDomain(extent, { from: Math.floor(since - (extent.whole[1] - since) * 0.02), to: extent.whole[1] });
  const dates = [from, to].map((x) => dateAtX(source.datesOnAxis, x));
  const range =
    sameDomain(domain, extent.whole) || dates[0] == null || dates[1] == null
      ? "Whole range"
      : `${f.month(dates[0])} to ${f.month(dates[1])}, ${f.number(from * shown.meter)} to ${f.meter(to, source.meterUnit)}`;

  return (
    <>
      <div className="trend-bar no-print">
        <p role="status">{range}</p>
        <TrendTools
          extent={extent}
          domain={domain}
          today={source.xNow}
          sinceRepair={sinceRepair}
          hrefOf={(next) => hrefWith(new URLSearchParams(fields), next)}
          show={show}
        />
      </div>
      <section
        className="trend-hold"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the chart takes keys: it zooms and moves.
        tabIndex={0}
        aria-label={`Chart: ${props.title}. Plus and minus zoom, arrows move, 0 shows the whole; its tests follow.`}
        onKeyDown={onKeyDown}
        {...gestures}
      >
        <figure className="unit-trend" role="img" aria-label={props.label}>
          {trend !== null && <TrendChart trend={trend} windowClass={props.windowClass} />}
        </figure>
        {trend !== null && <TrendStops plot={plot} stops={stops} trend={trend} />}
      </section>
      <noscript>
        <p>The chart is drawn by script. All its readings stand in the table of tests.</p>
      </noscript>
    </>
  );
}
