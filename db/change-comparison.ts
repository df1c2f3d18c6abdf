import { and, desc, eq, exists, gt, isNotNull, lte, not, or, type SQL, sql } from "drizzle-orm";
import { alias } from "drizzle-orm/sqlite-core";
import type { ChangeFrame } from "../lib/schema/changes.ts";
import { windowSigns } from "./change-signs.ts";
import type { Store } from "./store.ts";

/** `since`: the instant at which the standing is compared with the one in force. */
export interface ChangesAsked extends ChangeFrame {
  readonly since: string;
}

const flag = (condition: SQL | undefined) => sql<number>`case when ${condition} then 1 else 0 end`.mapWith(Number);

/**
 * A row for each unit that was assessed anew or left since: what stood then beside what stands now, and what of it is
 * different (flags of 1 or 0; `direction` −1 worse, 1 better). Units that neither was nor are in the fleet are left out.
 * Nothing else can have changed: a day's telling that differs is issued as well.
 */
export function changeComparison(store: Store, asked: ChangesAsked) {
  const { q, fleetRows: now, assessments, departures } = store;
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
    return windowSigns(columns(was), columns(now), asked);
  };
  const [topEnd, bottomEnd] = [window("topEnd"), window("bottomEnd")];
  const stays = and(isNotNull(now.unit), isNotNull(was.id));
  const pairs = q
    .select({
      unit: touched.unit,
      wasId: sql<number | null>`${was.id}`.as("was_id"),
      issueId: now.issueId,
      isThere: flag(isNotNull(now.unit)).as("is_there"),
      fleet: flag(not(stays as SQL)).as("fleet"),
      band: flag(and(stays, sql`coalesce(${now.bandPlace}, -1) <> coalesce(${was.bandPlace}, -1)`)).as("band"),
      bandStep: sql<number | null>`${now.bandPlace} - ${was.bandPlace}`.as("band_step"),
      window: flag(and(stays, sql`(${topEnd.moved} = 1 or ${bottomEnd.moved} = 1)`)).as("window"),
      windowSign: sql<number | null>`case when ${topEnd.sign} < 0 or ${bottomEnd.sign} < 0 then -1
        when ${topEnd.sign} > 0 or ${bottomEnd.sign} > 0 then 1 else 0 end`.as("window_sign"),
      question: flag(and(stays, sql`${now.questions} <> ${was.questions}`)).as("question"),
      test: flag(
        and(isNotNull(now.lastTestDate), or(sql`${was.lastTestDate} is null`, gt(now.lastTestDate, was.lastTestDate))),
      ).as("test"),
      place: sql<number | null>`coalesce(${now.bandPlace}, ${was.bandPlace})`.as("place"),
      dueDate: now.dueDate,
      depot: sql<string | null>`case when ${now.unit} is null then ${was.depot} else ${now.depot} end`.as("depot_then"),
      modelName: now.modelName,
      unitOrder: sql<string>`coalesce(${now.unitOrder}, lower(${touched.unit}))`.as("unit_order_then"),
    })
    .from(touched)
    .leftJoin(now, eq(now.unit, touched.unit))
    .leftJoin(was, and(eq(was.id, stood), not(exists(leftAfterwards))))
    .where(or(isNotNull(now.unit), isNotNull(was.id)))
    .as("pairs");
  return q
    .select({
      unit: pairs.unit,
      wasId: pairs.wasId,
      issueId: pairs.issueId,
      isThere: pairs.isThere,
      fleet: pairs.fleet,
      band: pairs.band,
      window: pairs.window,
      question: pairs.question,
      test: pairs.test,
      told: flag(sql`${pairs.fleet} + ${pairs.band} + ${pairs.window} + ${pairs.question} > 0`).as("told"),
      direction: sql<number>`case when ${pairs.fleet} = 1 then 0
        when ${pairs.bandStep} < 0 then -1 when ${pairs.bandStep} > 0 then 1
        when ${pairs.window} = 1 then ${pairs.windowSign} else 0 end`.as("direction"),
      place: pairs.place,
      dueDate: pairs.dueDate,
      depot: pairs.depot,
      modelName: pairs.modelName,
      unitOrder: pairs.unitOrder,
    })
    .from(pairs)
    .as("changes");
}
