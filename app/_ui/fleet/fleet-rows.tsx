import { AxisLines } from "../time-axis.tsx";
import { WindowInk } from "../window-glyph.tsx";
import { FleetBlocks } from "./fleet-blocks.tsx";
import { FleetPaging } from "./fleet-paging.tsx";
import { FleetTable } from "./fleet-table.tsx";
import type { FleetShown } from "./shown.ts";
import { WeekDrawings, WeeksInWords } from "./week-drawings.tsx";
import { WindowKey } from "./window-key.tsx";

/** The units of a page as a table and as blocks, one of which is shown; with the key and what both draw from. */
export function FleetRows({ total, ...shown }: FleetShown & { readonly total: number }) {
  const weeks = [...shown.weeks.values()];
  const hasWeeks = (kind: "peak" | "closed") => weeks.some(({ spans }) => spans.some((span) => span.kind === kind));
  const modelOnly = shown.rows.some((row) =>
    [row.topEnd, row.bottomEnd].some((dates) => dates.status === "too-few-tests" && dates.p10 !== null),
  );
  return (
    <>
      <WindowInk />
      <AxisLines id={shown.linesId} span={shown.span} />
      <WeekDrawings weeks={weeks} span={shown.span} f={shown.f} />
      <WindowKey modelOnly={modelOnly} closed={hasWeeks("closed")} peak={hasWeeks("peak")} />
      {weeks.length > 0 && <WeeksInWords weeks={weeks} span={shown.span} f={shown.f} />}
      <FleetTable {...shown} />
      <FleetBlocks {...shown} />
      <FleetPaging view={shown.view} total={total} f={shown.f} />
    </>
  );
}
