import type { FleetCounts } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { type FleetView, fleetAddress, isPart } from "./address.ts";

type Filter = FleetView["band"];

/**
 * How many units stand where; each count leads to its units. Bands at the left, open matters at the right. Where a part
 * of the fleet is looked at the counts are of that part, and the first says of how many. `children`: further counts.
 */
export function FleetCountLinks({
  counts,
  fleet,
  view,
  f,
  children,
}: {
  readonly counts: FleetCounts;
  /** Units of the whole fleet. */
  readonly fleet: number;
  readonly view: FleetView;
  readonly f: Formats;
  readonly children?: React.ReactNode;
}) {
  const { byBand } = counts;
  const one = (band: Filter, count: number, words: React.ReactNode, open = false) => (
    <li key={band ?? "all"} className={open ? "count count-open" : "count"}>
      <AppLink
        variant="bare"
        href={fleetAddress(view, { band })}
        scroll={false}
        {...(view.band === band ? { "aria-current": "true" as const } : {})}
      >
        <span className="count-figure">{f.number(count)}</span> <span className="count-words">{words}</span>
      </AppLink>
    </li>
  );
  return (
    <nav aria-label="Units by band and open matter" className="counts">
      <ul>
        {one(null, counts.all, isPart(view) ? `of ${f.number(fleet)} units` : "all units")}
        {one("past-limit", byBand["past-limit"], <BandMark band="past-limit" />)}
        {one("plan", byBand.plan, <BandMark band="plan" />)}
        {one("watch", byBand.watch, <BandMark band="watch" />)}
        {one("sound", byBand.sound, <BandMark band="sound" />)}
        {one("never-tested", counts.neverTested, <BandMark band={null} />)}
        {one("overdue", counts.overdue, "no recent test", true)}
        {one("question", counts.questions, "question open", true)}
        {children}
      </ul>
    </nav>
  );
}

/** Stands for the count of what changed until that is known, and leads to it as well. */
export function ChangedWait() {
  return (
    <li className="count count-open">
      <AppLink variant="bare" href="/changes">
        <span className="count-figure" aria-hidden="true">
          …
        </span>{" "}
        <span className="count-words">changed since your visit</span>
      </AppLink>
    </li>
  );
}
