import { and, desc, eq, exists, gt, isNotNull, lte, not, or, type SQLWrapper, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import type { ChangeFrame } from "../lib/schema/changes.ts";
import { windowDays, windowMoved, windowShift } from "./change-signs.ts";
import type { Store } from "./store.ts";

/** `since`: the instant at which the standing is compared with the one in force. */
export interface ChangesAsked extends ChangeFrame {
  readonly since: string;
  /** Of one depot alone; null or left out: of all. */
  readonly depot?: string | null;
}

/** More rows than there are: a query that has a limit is worked out once, and not at each mention of what it gives. */
const once = 1_000_000_000;

const flag = (condition: SQLWrapper | undefined) =>
  sql<number>`case when ${condition} then 1 else 0 end`.mapWith(Number);

/**
 * A row for each unit that was assessed anew or left since: what stood then beside what stands now, and what of it is
 * different (flags of 1 or 0; `direction` −1 worse, 1 better). Units that neither was nor are in the fleet are left out.
 * Nothing else can have changed: a day's telling that differs is issued as well.
 */
export function changeComparison(store: Store, asked: ChangesAsked) {
  const { q } = store;
  const pairs = thenAndNow(store, asked);
  const moves = q
    .select({
      unit: pairs.unit,
      wasId: pairs.wasId,
      issueId: pairs.issueId,
      isThere: pairs.isThere,
      stays: pairs.stays,
      place: pairs.place,
      placeThen: pairs.placeThen,
      newQuestions: pairs.newQuestions,
      test: pairs.test,
      topEndShift: windowShift({
        early: pairs.topEndEarly,
        likely: pairs.topEndLikely,
        late: pairs.topEndLate,
        least: pairs.topEndLeast,
      }).as("top_end_shift"),
      topEndThen: pairs.topEndThen,
      topEndNow: pairs.topEndNow,
      bottomEndShift: windowShift({
        early: pairs.bottomEndEarly,
        likely: pairs.bottomEndLikely,
        late: pairs.bottomEndLate,
        least: pairs.bottomEndLeast,
      }).as("bottom_end_shift"),
      bottomEndThen: pairs.bottomEndThen,
      bottomEndNow: pairs.bottomEndNow,
      dueDate: pairs.dueDate,
      depot: pairs.depot,
      engineModel: pairs.engineModel,
      modelName: pairs.modelName,
      unitOrder: pairs.unitOrder,
    })
    .from(pairs)
    .limit(once)
    .as("moves");
  const topEnd = windowMoved(moves.topEndShift, moves.topEndThen, moves.topEndNow);
  const bottomEnd = windowMoved(moves.bottomEndShift, moves.bottomEndThen, moves.bottomEndNow);
  const stays = eq(moves.stays, 1);
  const step = sql`(${moves.place} - ${moves.placeThen})`;
  const kinds = q
    .select({
      unit: moves.unit,
      wasId: moves.wasId,
      issueId: moves.issueId,
      isThere: moves.isThere,
      fleet: flag(not(stays)).as("fleet"),
      band: flag(and(stays, sql`coalesce(${moves.place}, -1) <> coalesce(${moves.placeThen}, -1)`)).as("band"),
      window: flag(and(stays, sql`((${topEnd.moved}) or (${bottomEnd.moved}))`)).as("window"),
      question: flag(and(stays, sql`${moves.newQuestions} <> 0`)).as("question"),
      test: moves.test,
      direction: sql<number>`case when not ${stays} then 0 when ${step} < 0 then -1 when ${step} > 0 then 1
        when -1 in ((${topEnd.sign}), (${bottomEnd.sign})) then -1
        when 1 in ((${topEnd.sign}), (${bottomEnd.sign})) then 1 else 0 end`.as("direction"),
      place: sql<number | null>`coalesce(${moves.place}, ${moves.placeThen})`.as("place_told"),
      dueDate: moves.dueDate,
      depot: moves.depot,
      engineModel: moves.engineModel,
      modelName: moves.modelName,
      unitOrder: moves.unitOrder,
    })
    .from(moves)
    .limit(once)
    .as("kinds");
  return q
    .select({
      unit: kinds.unit,
      wasId: kinds.wasId,
      issueId: kinds.issueId,
      isThere: kinds.isThere,
      fleet: kinds.fleet,
      band: kinds.band,
      window: kinds.window,
      question: kinds.question,
      test: kinds.test,
      told: flag(sql`${kinds.fleet} + ${kinds.band} + ${kinds.window} + ${kinds.question} > 0`).as("told"),
      direction: kinds.direction,
      place: kinds.place,
      dueDate: kinds.dueDate,
      depot: kinds.depot,
      engineModel: kinds.engineModel,
      modelName: kinds.modelName,
      unitOrder: kinds.unitOrder,
    })
    .from(kinds)
    .as("changes");
}

/** The first step: each unit's columns of then and now in one row, and the days that its windows' dates went. */
function thenAndNow({ q, fleetRows: now, assessments, departures }: Store, asked: ChangesAsked) {
  const { since } = asked;
  const touched = q
    .select({ unit: now.unit })
    .from(now)
    .where(gt(now.issuedAt, since))
    .union(q.select({ unit: departures.unit }).from(departures).where(gt(departures.at, since)))
    .as("touched");
  const was = alias(assessments, "was");
  const issue = alias(assessments, "issue");
  const stood = q
    .select({ id: issue.id })
    .from(issue)
    .where(and(eq(issue.unit, touched.unit), lte(issue.madeAt, since)))
    .orderBy(desc(issue.madeAt), desc(issue.id))
    .limit(1);
  const leftAfterwards = q
    .select({ one: sql`1` })
    .from(departures)
    .where(and(eq(departures.unit, touched.unit), lte(departures.at, since), gt(departures.id, was.id)));
  const window = (end: "topEnd" | "bottomEnd") => {
    const columns = (of: typeof was | typeof now) => ({
      status: of[`${end}Status`],
      early: of[`${end}EarlyDay`],
      likely: of[`${end}LikelyDay`],
      late: of[`${end}LateDay`],
    });
    return windowDays(columns(was), columns(now), asked);
  };
  const [topEnd, bottomEnd] = [window("topEnd"), window("bottomEnd")];
  const days = (of: SQLWrapper, name: string) => sql<number | null>`${of}`.as(name);
  const then = <T>(column: SQLWrapper, name: string) => sql<T | null>`${column}`.as(name);
  const isNewer = or(sql`${was.lastTestDate} is null`, gt(now.lastTestDate, was.lastTestDate));
  return q
    .select({
      unit: touched.unit,
      wasId: then<number>(was.id, "was_id"),
      issueId: now.issueId,
      isThere: flag(isNotNull(now.unit)).as("is_there"),
      stays: flag(and(isNotNull(now.unit), isNotNull(was.id))).as("stays"),
      place: now.bandPlace,
      placeThen: then<number>(was.bandPlace, "place_then"),
      newQuestions: sql<number | null>`${now.questions} - ${was.questions}`.as("new_questions"),
      test: flag(and(isNotNull(now.lastTestDate), isNewer)).as("test"),
      topEndThen: then<string>(was.topEndStatus, "top_end_then"),
      topEndNow: then<string>(now.topEndStatus, "top_end_now"),
      topEndEarly: days(topEnd.early, "top_end_early"),
      topEndLikely: days(topEnd.likely, "top_end_likely"),
      topEndLate: days(topEnd.late, "top_end_late"),
      topEndLeast: days(topEnd.least, "top_end_least"),
      bottomEndThen: then<string>(was.bottomEndStatus, "bottom_end_then"),
      bottomEndNow: then<string>(now.bottomEndStatus, "bottom_end_now"),
      bottomEndEarly: days(bottomEnd.early, "bottom_end_early"),
      bottomEndLikely: days(bottomEnd.likely, "bottom_end_likely"),
      bottomEndLate: days(bottomEnd.late, "bottom_end_late"),
      bottomEndLeast: days(bottomEnd.least, "bottom_end_least"),
      dueDate: now.dueDate,
      depot: sql<string | null>`case when ${now.unit} is null then ${was.depot} else ${now.depot} end`.as("depot_told"),
      engineModel: now.engineModel,
      modelName: now.modelName,
      unitOrder: sql<string>`coalesce(${now.unitOrder}, lower(${touched.unit}))`.as("unit_order_told"),
    })
    .from(touched)
    .leftJoin(now, eq(now.unit, touched.unit))
    .leftJoin(was, and(eq(was.id, stood), not(exists(leftAfterwards))))
    .where(or(isNotNull(now.unit), isNotNull(was.id)))
    .limit(once)
    .as("pairs");
}
