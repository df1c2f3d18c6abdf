import type { IsoDate } from "@/lib/schema/facts.ts";
import type { UnitReport } from "@/lib/schema/report.ts";

type Month = UnitReport["pastLimit"][number];

/** The chances told for a date; between two months those of the earlier, which the later can only exceed. */
export function chanceAt(months: readonly Month[], date: IsoDate): Pick<Month, "topEnd" | "bottomEnd"> {
  return months.findLast((m) => m.date <= date) ?? { topEnd: 0, bottomEnd: 0 };
}
