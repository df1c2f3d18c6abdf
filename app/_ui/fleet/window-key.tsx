import { addDays } from "../../../lib/calendar.ts";
import type { WindowDates } from "../../../lib/schema/report.ts";
import { Term } from "../term.tsx";
import { timeSpan } from "../time-span.ts";
import { WindowSample } from "../window-glyph.tsx";
import { WeekSample } from "./week-drawings.tsx";

// The key's windows lie on an axis of their own.
const span = timeSpan("2001-01-01", 1);
const day = (days: number) => addDays(span.from, days);
const closed: WindowDates = { status: "projected", p10: day(20), p50: day(150), p90: day(345) };
const open: WindowDates = { status: "projected", p10: day(20), p50: null, p90: null };
const fromModel: WindowDates = { ...closed, status: "too-few-tests" };

/** What the windows' forms mean, and what lies behind them. */
export function WindowKey(props: {
  /** Some windows come from the model only. */
  readonly modelOnly: boolean;
  /** A planned disposal comes before some window's likely date. */
  readonly sold: boolean;
  readonly closed: boolean;
  readonly peak: boolean;
}) {
  return (
    <ul className="window-key">
      <li>
        <WindowSample part="top" dates={closed} span={span} />
        <span>
          <Term of="top-end" />: <Term of="window" shown="early, likely, late" />
        </span>
      </li>
      <li>
        <WindowSample part="bottom" dates={closed} span={span} />
        <Term of="bottom-end" />
      </li>
      <li>
        <WindowSample part="bottom" dates={open} span={span} />
        no late end yet
      </li>
      {props.modelOnly && (
        <li>
          <WindowSample part="bottom" dates={fromModel} span={span} />
          from the model only
        </li>
      )}
      {props.sold && (
        <li>
          <svg width="34" height="18" aria-hidden="true">
            <use href="#window-sold" x="32" y="9" />
          </svg>
          planned for disposal before the likely date
        </li>
      )}
      {props.closed && (
        <li>
          <WeekSample kind="closed" />
          depot closed
        </li>
      )}
      {props.peak && (
        <li>
          <WeekSample kind="peak" />
          peak weeks
        </li>
      )}
    </ul>
  );
}
