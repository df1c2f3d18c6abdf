import { AxisLines } from "../time-axis.tsx";
import { WindowInk } from "../window-glyph.tsx";
import { FleetPaging } from "./fleet-paging.tsx";
import { FleetTable } from "./fleet-table.client.tsx";
import type { FleetShown } from "./shown.ts";
import { WeekDrawings, WeeksInWords } from "./week-drawings.tsx";
import { WindowKey } from "./window-key.tsx";

/** The units of a page with the key to their windows and what these are drawn from. */
export function FleetRows({ total, f, ...shown }: FleetShown & { readonly total: number }) {
  const weeks = [...shown.weeks.values()];
  const hasWeeks = (kind: "peak" | "closed") => weeks.some(({ spans }) => spans.some((span) => span.kind === kind));
  const modelOnly = shown.rows.some((row) =>
    [row.topEnd, row.bottomEnd].some((dates) => dates.status === "too-few-tests" && dates.p10 !== null),
  );
  const sold = shown.rows.some((row) => [row.topEnd, row.bottomEnd].some((dates) => dates.soldOn !== undefined));
  return (
    <>
      <WindowInk />
      <AxisLines id={shown.linesId} span={shown.span} />
      <WeekDrawings weeks={weeks} span={shown.span} f={f} />
      <WindowKey modelOnly={modelOnly} sold={sold} closed={hasWeeks("closed")} peak={hasWeeks("peak")} />
      {weeks.length > 0 && <WeeksInWords weeks={weeks} span={shown.span} f={f} />}
      <FleetTable {...shown} />
      <FleetPaging view={shown.view} total={total} f={f} />
    </>
  );
}
