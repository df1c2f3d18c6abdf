import { type AnyColumn, type SQL, sql } from "drizzle-orm";
import { type ChangeFrame, materialMove } from "../lib/schema/changes.ts";
import { dayOf } from "./days.ts";

/** The columns of one window, before or now. */
export interface WindowColumns {
  readonly status: AnyColumn;
  readonly early: AnyColumn;
  readonly likely: AnyColumn;
  readonly late: AnyColumn;
}

/**
 * Whether a window moved, and which way, in SQL: `lib/changes/window-move.ts` says the same of one unit, and how it is
 * meant. `moved`: 1 or 0. `sign`: −1 sooner, 1 later, 0 neither.
 */
export function windowSigns(
  was: WindowColumns,
  now: WindowColumns,
  { asOf, horizonEnd }: ChangeFrame,
): { readonly moved: SQL<number>; readonly sign: SQL<number> } {
  const [today, end] = [dayOf(asOf), dayOf(horizonEnd)];
  const { share, leastDays, mostDays } = materialMove;
  const width = sql`(${was.late} - ${was.early}) * ${share}`;
  const least = sql`(case when ${was.late} is null or ${was.early} is null or ${width} > ${mostDays} then ${mostDays}
    when ${width} < ${leastDays} then ${leastDays} else ${width} end)`;
  const days = (quantile: "early" | "likely" | "late") => {
    const before = sql`coalesce(${was[quantile]}, ${end})`;
    return sql`(coalesce(${now[quantile]}, ${end}) - (case when ${before} > ${today} then ${before} else ${today} end))`;
  };
  const [early, likely, late] = [days("early"), days("likely"), days("late")];
  const counts = (move: SQL) => sql`abs(${move}) > ${least}`;
  const shift = sql`(case when ${counts(likely)} then ${likely} when ${counts(early)} then ${early}
    when ${counts(late)} then ${late} else 0 end)`;
  const bySide = (nowAlone: number, wasAlone: number, neither: SQL) =>
    sql<number>`(case when ${now.status} = 'crossed' and ${was.status} = 'crossed' then 0
      when ${now.status} = 'crossed' then ${nowAlone} when ${was.status} = 'crossed' then ${wasAlone}
      else ${neither} end)`;
  return {
    moved: bySide(1, 1, sql`case when ${shift} <> 0 then 1 else 0 end`),
    sign: bySide(
      -1,
      1,
      sql`case when 'too-few-tests' in (${was.status}, ${now.status}) then 0
        when ${shift} < 0 then -1 when ${shift} > 0 then 1 else 0 end`,
    ),
  };
}
