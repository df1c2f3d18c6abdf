import { type AnyColumn, type SQL, type SQLWrapper, sql } from "drizzle-orm";
import { type ChangeFrame, materialMove } from "../lib/schema/changes.ts";
import { dayOf } from "./days.ts";

/**
 * Whether a window moved, and which way, in SQL: `lib/changes/window-move.ts` says the same of one unit, and how it is
 * meant. In steps, each of which is worked out once by a query of its own (change-comparison.ts).
 */

/** The columns of one window, then or now. */
interface WindowColumns {
  readonly status: AnyColumn;
  readonly early: AnyColumn;
  readonly likely: AnyColumn;
  readonly late: AnyColumn;
}

interface WindowDays {
  /** Days that each date went; negative: sooner. */
  readonly early: SQLWrapper;
  readonly likely: SQLWrapper;
  readonly late: SQLWrapper;
  /** The move that still counts as none. */
  readonly least: SQLWrapper;
}

/** The first step: by how many days each date went, and how many count. */
export function windowDays(was: WindowColumns, now: WindowColumns, { asOf, horizonEnd }: ChangeFrame): WindowDays {
  const [today, end] = [dayOf(asOf), dayOf(horizonEnd)];
  const { share, leastDays, mostDays } = materialMove;
  const width = sql`(${was.late} - ${was.early}) * ${share}`;
  const days = (quantile: "early" | "likely" | "late") => {
    const before = sql`coalesce(${was[quantile]}, ${end})`;
    return sql`coalesce(${now[quantile]}, ${end}) - (case when ${before} > ${today} then ${before} else ${today} end)`;
  };
  return {
    early: days("early"),
    likely: days("likely"),
    late: days("late"),
    least: sql`case when ${was.late} is null or ${was.early} is null or ${width} > ${mostDays} then ${mostDays}
      when ${width} < ${leastDays} then ${leastDays} else ${width} end`,
  };
}

/** The second step: the days that the window as a whole went, by its likely date where that moved; 0: it did not. */
export function windowShift({ early, likely, late, least }: WindowDays): SQL {
  const counts = (move: SQLWrapper) => sql`abs(${move}) > ${least}`;
  return sql`case when ${counts(likely)} then ${likely} when ${counts(early)} then ${early}
    when ${counts(late)} then ${late} else 0 end`;
}

/** The last step. `moved`: a condition. `sign`: −1 sooner, 1 later, 0 neither. */
export function windowMoved(shift: SQLWrapper, was: SQLWrapper, now: SQLWrapper): { moved: SQL; sign: SQL } {
  return {
    moved: sql`case when 'crossed' in (${was}, ${now}) then ${was} <> ${now} else ${shift} <> 0 end`,
    sign: sql`case when ${was} = 'crossed' and ${now} = 'crossed' then 0 when ${now} = 'crossed' then -1
      when ${was} = 'crossed' then 1 when 'too-few-tests' in (${was}, ${now}) then 0
      when ${shift} < 0 then -1 when ${shift} > 0 then 1 else 0 end`,
  };
}
