import { addDays } from "../../../lib/calendar.ts";
import type { WindowDates } from "../../../lib/schema/report.ts";
import { timeSpan } from "../time-span.ts";
import { WindowSample } from "../window-glyph.tsx";
import { GhostLane } from "./moved-windows.tsx";

// The key's windows lie on an axis of their own.
const span = timeSpan("2001-01-01", 1);
const day = (days: number) => addDays(span.from, days);
const window: WindowDates = { status: "projected", p10: day(20), p50: day(150), p90: day(345) };

/** What the drawings of the list mean. */
export function ChangesKey() {
  return (
    <ul className="window-key">
      <li>
        <WindowSample part="top" dates={window} span={span} />
        top-end now: early, likely, late
      </li>
      <li>
        <WindowSample part="bottom" dates={window} span={span} />
        bottom-end now
      </li>
      <li>
        <svg className="window-sample" width="54" height="18" aria-hidden="true">
          <GhostLane dates={window} span={span} y={9} />
        </svg>
        what it was
      </li>
    </ul>
  );
}
