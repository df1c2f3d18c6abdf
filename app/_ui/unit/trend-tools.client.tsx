"use client";

import type { MouseEvent } from "react";
import type { Domain } from "./axis.ts";
import { type Extent, moved, sameDomain, zoomCentre, zoomed } from "./axis-view.ts";

/** Where each step leads, as buttons and keys take them alike. */
export function viewSteps(extent: Extent, domain: Domain, today: number) {
  const at = zoomCentre(domain, today);
  return {
    closer: zoomed(extent, domain, { times: 1.6, at }),
    wider: zoomed(extent, domain, { times: 1 / 1.6, at }),
    earlier: moved(extent, domain, -0.25),
    later: moved(extent, domain, 0.25),
    whole: extent.whole,
  };
}

/**
 * Zoom and move as links, so that each leads to an address that shows the same to a colleague; with script they change
 * the view in place. A step that leads nowhere keeps its place and the focus, but no address.
 */
export function TrendTools(props: {
  readonly extent: Extent;
  readonly domain: Domain;
  readonly today: number;
  /** From the last repair to the end of the whole; null: none lies within the axis. */
  readonly sinceRepair: Domain | null;
  readonly hrefOf: (domain: Domain) => string;
  readonly show: (domain: Domain) => void;
}) {
  const { extent, domain, sinceRepair } = props;
  const steps = viewSteps(extent, domain, props.today);
  const link = (to: Domain, name: string, mark: string) => {
    const leads = !sameDomain(to, domain);
    const onClick = (event: MouseEvent) => {
      if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
      event.preventDefault();
      if (leads) props.show(to);
    };
    return leads ? (
      <a href={props.hrefOf(to)} aria-label={name} onClick={onClick}>
        {mark}
      </a>
    ) : (
      // biome-ignore lint/a11y: still a link of the row, whose focus must not be lost when it has led as far as it can.
      <a role="link" aria-disabled="true" tabIndex={0} aria-label={name}>
        {mark}
      </a>
    );
  };
  return (
    <nav className="segments trend-tools" aria-label="Range shown">
      {link(steps.closer, "Zoom in", "+")}
      {link(steps.wider, "Zoom out", "−")}
      {link(steps.earlier, "Earlier", "‹")}
      {link(steps.later, "Later", "›")}
      {sinceRepair !== null && link(sinceRepair, "Since the last repair", "Since repair")}
      {link(steps.whole, "Whole range", "Whole")}
    </nav>
  );
}
