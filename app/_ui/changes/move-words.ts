import type { WindowMove } from "../../../lib/changes/window-move.ts";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { WindowDates } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";

/** What people plan by comes first. */
const dates = ["likely", "early", "late"] as const;

/**
 * How a window moved, as one line: "top-end likely Sep 2026, was Nov 2026; late Jan 2027, was Apr 2027". Only what moved
 * by more than noise is told. `horizonEnd`: the last date that forecasts reach.
 */
export function moveWords(
  part: "top-end" | "bottom-end",
  move: WindowMove,
  { horizonEnd, f }: { readonly horizonEnd: IsoDate; readonly f: Formats },
): string {
  const beyond = `after ${f.month(horizonEnd)}`;
  const told = (of: WindowDates, date: IsoDate | null) => (date === null ? beyond : f.forecast(date, of.p10, of.p90));
  const { from, to } = move;
  const likely = (of: WindowDates) => `likely ${told(of, of.p50)}`;
  switch (move.kind) {
    case "crossed":
      return from.p50 === null ? `${part} limit crossed` : `${part} limit crossed, was ${likely(from)}`;
    case "no-longer-crossed":
      return `${part} limit no longer crossed: ${to.p10 === null ? notForeseen(to) : likely(to)}`;
    case "appeared":
      return `${part} ${likely(to)}, was ${notForeseen(from)}`;
    case "gone":
      return `${part} ${notForeseen(to)}, was ${likely(from)}`;
    case "moved": {
      const parts = dates.flatMap((name) => {
        const date = move[name];
        if (date === null) return [];
        const [before, after] = [told(from, date.from), told(to, date.to)];
        // Within one month only the day tells the two apart.
        return before === after && date.from !== null && date.to !== null
          ? [`${name} ${f.date(date.to)}, was ${f.date(date.from)}`]
          : [`${name} ${after}, was ${before}`];
      });
      return `${part} ${parts.join("; ")}`;
    }
  }
}

const notForeseen = ({ status }: WindowDates): string =>
  status === "too-few-tests" ? "without enough tests" : "not foreseen";
