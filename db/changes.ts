import { and, asc, count, desc, eq, getTableColumns, inArray, min, type SQL, sql } from "drizzle-orm";
import type { AssessmentBasis, ChangesQuery, Standing } from "../lib/schema/changes.ts";
import { type ChangesAsked, changeComparison } from "./change-comparison.ts";
import { forChunks } from "./chunks.ts";
import { preparedFor } from "./prepared.ts";
import { remembered } from "./remembered.ts";
import type { Schema } from "./schema.ts";
import type { AssessmentReason } from "./schema-derived.ts";
import { standingOf } from "./standing.ts";
import type { Store } from "./store.ts";

/** An assessment out of the history, as a unit is compared and explained by it. */
export interface ToldStanding extends Standing {
  readonly id: number;
  readonly unit: string;
  readonly madeAt: string;
  readonly because: AssessmentReason;
  readonly importId: string | null;
  /** null: nothing of it was kept then. */
  readonly basis: AssessmentBasis | null;
}

export interface ChangedUnit {
  readonly unit: string;
  /** null: it has left the fleet. */
  readonly engineModel: string | null;
  readonly modelName: string | null;
  readonly depot: string | null;
  /** null: new in the fleet since. */
  readonly was: ToldStanding | null;
  /** null: it has left the fleet since. Where a day went by since the last assessment, told for that day. */
  readonly now: ToldStanding | null;
  /** Why it left, where it did. */
  readonly leftBecause: AssessmentReason | null;
}

export interface ChangeCounts {
  /** Changed in any way but that they were tested again. */
  readonly told: number;
  readonly worse: number;
  readonly better: number;
  readonly band: number;
  readonly window: number;
  readonly question: number;
  readonly fleet: number;
  /** Tested since, changed or not. */
  readonly test: number;
}

/** When the first assessment of the history was issued; null: none was. */
export const historyBegins = remembered("history-begins", async ({ q, assessments }: Store): Promise<string | null> => {
  const [row] = await q.select({ at: min(assessments.madeAt) }).from(assessments);
  return row?.at ?? null;
});

/** How many units changed, by kind; of one depot where it is asked for. Its cost goes with the units that were assessed anew since, not with the history. */
export const changeCounts = remembered(
  "change-counts",
  async (store: Store, asked: ChangesAsked): Promise<ChangeCounts> => {
    const changes = changeComparison(store, asked);
    const where = (condition: SQL) => sql<number>`count(case when ${condition} then 1 end)`.mapWith(Number);
    const [row] = await store.q
      .select({
        told: where(eq(changes.told, 1)),
        worse: where(sql`${changes.told} = 1 and ${changes.direction} < 0`),
        better: where(sql`${changes.told} = 1 and ${changes.direction} > 0`),
        band: where(eq(changes.band, 1)),
        window: where(eq(changes.window, 1)),
        question: where(eq(changes.question, 1)),
        fleet: where(eq(changes.fleet, 1)),
        test: where(eq(changes.test, 1)),
      })
      .from(changes)
      .where(asked.depot == null ? undefined : eq(changes.depot, asked.depot));
    return row!;
  },
);

/**
 * One page of the units that changed, and how many there are. Worse ones come first, the worst band and then the soonest
 * repair before the others; then those that got neither worse nor better, the better ones, and those that left.
 */
export async function changedUnits(
  store: Store,
  asked: ChangesAsked,
  query: ChangesQuery,
): Promise<{ units: ChangedUnit[]; total: number }> {
  const changes = changeComparison(store, asked);
  const { kind, direction, depot } = query;
  const wanted = and(
    eq(changes[kind ?? "told"], 1),
    direction === null ? undefined : sql`${changes.direction} = ${direction === "worse" ? -1 : 1}`,
    depot === null ? undefined : eq(changes.depot, depot),
  );
  const { unit, wasId, issueId, isThere, engineModel, modelName } = changes;
  const total = sql<number>`count(*) over ()`.mapWith(Number);
  const page = await store.q
    .select({ unit, wasId, issueId, isThere, engineModel, modelName, depot: changes.depot, total })
    .from(changes)
    .where(wanted)
    .orderBy(
      desc(isThere),
      sql`${changes.direction} asc`,
      sql`${changes.place} asc nulls last`,
      sql`${changes.dueDate} asc nulls last`,
      sql`${changes.unitOrder} asc`,
    )
    .limit(query.pageSize)
    .offset((query.page - 1) * query.pageSize);
  const issues = await issuesById(
    store,
    page.flatMap((each) => [each.wasId, each.issueId].filter((id) => id !== null)),
  );
  const standings = await standingsInForce(
    store,
    page.map((each) => each.unit),
  );
  const left = await leftBecause(
    store,
    page.filter((each) => each.isThere === 0).map((each) => each.unit),
  );
  const units = page.map((each): ChangedUnit => {
    const issue = each.issueId === null ? undefined : issues.get(each.issueId);
    const standing = standings.get(each.unit);
    return {
      unit: each.unit,
      engineModel: each.engineModel,
      modelName: each.modelName,
      depot: each.depot,
      was: each.wasId === null ? null : (issues.get(each.wasId) ?? null),
      now: issue === undefined || standing === undefined ? null : { ...issue, ...standing },
      leftBecause: left.get(each.unit) ?? null,
    };
  });
  const [first] = page;
  if (first !== undefined || query.page === 1) return { units, total: first?.total ?? 0 };
  // Beyond the last page no row tells how many there are.
  const [row] = await store.q.select({ total: count() }).from(changes).where(wanted);
  return { units, total: row?.total ?? 0 };
}

type Issue = Omit<Schema["assessments"]["$inferSelect"], "assessment">;

function issueColumns({ assessments }: Pick<Store, "assessments">) {
  const { assessment: _assessment, ...columns } = getTableColumns(assessments);
  return columns;
}

const toldOf = (row: Issue): ToldStanding => ({
  ...standingOf(row),
  id: row.id,
  unit: row.unit,
  madeAt: row.madeAt,
  because: row.because,
  importId: row.importId,
  basis: row.basis,
});

async function issuesById(
  { q, assessments }: Store,
  ids: readonly number[],
): Promise<ReadonlyMap<number, ToldStanding>> {
  const rows = await forChunks(ids, (part) =>
    q.select(issueColumns({ assessments })).from(assessments).where(inArray(assessments.id, part)),
  );
  return new Map(rows.map((row) => [row.id, toldOf(row)]));
}

async function standingsInForce(
  { q, fleetRows }: Store,
  units: readonly string[],
): Promise<ReadonlyMap<string, Standing>> {
  const rows = await forChunks(units, (part) => q.select().from(fleetRows).where(inArray(fleetRows.unit, part)));
  return new Map(rows.map((row) => [row.unit, standingOf(row)]));
}

async function leftBecause(
  { q, departures }: Store,
  units: readonly string[],
): Promise<ReadonlyMap<string, AssessmentReason>> {
  const rows = await forChunks(units, (part) =>
    q
      .select({ unit: departures.unit, because: departures.because })
      .from(departures)
      .where(inArray(departures.unit, part))
      .orderBy(asc(departures.id)),
  );
  // The last one stands.
  return new Map(rows.map((row) => [row.unit, row.because]));
}

/** The last assessments of a unit as they were issued, newest first, without their documents. */
export async function unitIssues(store: Store, unit: string, limit: number): Promise<ToldStanding[]> {
  return (await issuesOf(store).all({ unit, limit })).map(toldOf);
}

const issuesOf = preparedFor(({ q, assessments }) =>
  q
    .select(issueColumns({ assessments }))
    .from(assessments)
    .where(eq(assessments.unit, sql.placeholder("unit")))
    .orderBy(desc(assessments.id))
    .limit(sql.placeholder("limit"))
    .prepare(),
);
