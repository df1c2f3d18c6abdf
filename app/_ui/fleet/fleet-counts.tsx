import type { FleetCounts } from "../../../lib/schema/report.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { formatNumber } from "../formats.ts";
import { type FleetView, fleetAddress } from "./address.ts";

type Filter = FleetView["band"];

/** How many units stand where; each count leads to its units. Bands at the left, open matters at the right. */
export function FleetCountLinks({ counts, view }: { readonly counts: FleetCounts; readonly view: FleetView }) {
  const { byBand } = counts;
  const one = (band: Filter, count: number, words: React.ReactNode, open = false) => (
    <li key={band ?? "all"} className={open ? "count count-open" : "count"}>
      <AppLink
        variant="bare"
        href={fleetAddress(view, { band })}
        scroll={false}
        {...(view.band === band ? { "aria-current": "true" as const } : {})}
      >
        <span className="count-figure">{formatNumber(count)}</span> <span className="count-words">{words}</span>
      </AppLink>
    </li>
  );
  return (
    <nav aria-label="Units by band and open matter" className="counts">
      <ul>
        {one(null, counts.all, "all units")}
        {one("past-limit", byBand["past-limit"], <BandMark band="past-limit" />)}
        {one("plan", byBand.plan, <BandMark band="plan" />)}
        {one("watch", byBand.watch, <BandMark band="watch" />)}
        {one("sound", byBand.sound, <BandMark band="sound" />)}
        {one("never-tested", counts.neverTested, <BandMark band={null} />)}
        {one("overdue", counts.overdue, "no recent test", true)}
        {one("question", counts.questions, "question open", true)}
      </ul>
    </nav>
  );
}
