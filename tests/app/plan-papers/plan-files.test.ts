import { beforeAll, describe, expect, it } from "vitest";
import { planAnew } from "@/app/_jobs/plan-anew.ts";
import { inThisThread } from "@/app/_jobs/worker/tasks.ts";
import { planTable } from "@/app/_ui/plan-papers/read-tables.ts";
import { unitReport } from "@/db/assessments.ts";
import { chooseForUnit } from "@/db/plan-choices.ts";
import { planInForce } from "@/db/plans.ts";
import type { Store } from "@/db/store.ts";
import { isoWeek } from "@/lib/calendar.ts";
import { openDemoStore } from "../jobs/demo-store.ts";
import { act, newStore } from "../jobs/made-up-files.ts";

let planned: Store;

beforeAll(async () => {
  planned = await openDemoStore();
  await planAnew(planned, act, {}, inThisThread);
  return () => planned.close();
}, 120_000);

/** The rows of a table by their heads; every row has a cell for each. */
async function tableOf(
  name: Parameters<typeof planTable>[1],
  depot: string | null = null,
): Promise<Record<string, unknown>[]> {
  const table = await planTable(planned, name, { depot, now: act.now });
  if (table === null) throw new Error("there is no plan");
  const { head, rows } = table;
  expect(new Set(head).size).toBe(head.length);
  for (const row of rows) expect(row).toHaveLength(head.length);
  return rows.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i]])));
}

describe("the tables of a plan", () => {
  it("are none before there is a plan, but for what was repaired", async () => {
    const store = await newStore();
    expect(await planTable(store, "bookings", { depot: null, now: act.now })).toBeNull();
    expect((await planTable(store, "done", { depot: null, now: act.now }))?.rows).toEqual([]);
  });

  it("of bookings tell each in the order of the plan, its weeks and what it costs in the currency", async () => {
    const plan = (await planInForce(planned))?.plan;
    const rows = await tableOf("bookings");
    expect(rows.map((row) => [row["unit"], row["repair"], row["start"]])).toEqual(
      plan?.bookings.map(({ unit, scope, start }) => [unit, scope, start]),
    );
    for (const row of rows) {
      const parts = ["work_cost", "downtime_cost", "early_cost", "late_cost"].map((name) => Number(row[name]));
      expect(parts.reduce((a, b) => a + b, 0)).toBeCloseTo(Number(row["total_cost"]), 1);
      expect(String(row["last_bay_day"]) >= String(row["start"])).toBe(true);
      expect(String(row["order_by"]) <= String(row["start"])).toBe(true);
      expect(row["week"]).toMatch(/^\d{4}-W\d\d$/);
    }
  });

  it("of load have every week of every depot, and what the bookings take of them", async () => {
    const plan = (await planInForce(planned))?.plan;
    const rows = await tableOf("load");
    expect(rows).toHaveLength((plan?.depots.length ?? 0) * (plan?.weeks ?? 0));
    const used = rows.reduce((sum, row) => sum + Number(row["hours_used"]), 0);
    expect(used).toBeCloseTo(plan?.bookings.reduce((sum, { work }) => sum + work.labourHours, 0) ?? 0, 1);
    expect(rows.some((row) => row["open_days"] === 0 && row["hours"] === 0)).toBe(true);
  });

  it("of what found no room and of what waits name each unit with its depot", async () => {
    const plan = (await planInForce(planned))?.plan;
    expect((await tableOf("not-fitted")).map((row) => row["unit"])).toEqual(plan?.notFitted.map(({ unit }) => unit));
    const waiting = await tableOf("waiting");
    // What is as good as ruled out is no row.
    expect(waiting.map((row) => row["unit"])).toEqual(
      plan?.waiting.flatMap(({ unit, chance }) => (chance >= 0.3 ? [unit] : [])),
    );
    expect(waiting.length).toBeGreaterThan(0);
    expect(plan?.waiting.length).toBeGreaterThan(waiting.length);
    for (const row of waiting) {
      expect(row["depot"]).toBe((await unitReport(planned, String(row["unit"])))?.depot);
    }
  });

  it("of parts have a row for each booking, the first to be ordered first", async () => {
    const rows = await tableOf("parts");
    expect(rows).toHaveLength((await tableOf("bookings")).length);
    const days = rows.map((row) => String(row["order_by"]));
    expect(days).toEqual(days.toSorted());
  });

  it("of what was dropped name who dropped it and what that costs, and what waits has it no more", async () => {
    const store = await openDemoStore();
    await planAnew(store, act, {}, inThisThread);
    const booking = (await planInForce(store))?.plan.bookings.find(({ scope }) => scope === "top-end");
    if (booking === undefined) throw new Error("no top end is booked");
    const { unit, scope, depot, start } = booking;
    await chooseForUnit(
      store,
      { unit, chosen: [{ scope, date: null }], seen: [], known: [] },
      { by: "A. Planner", at: act.now.toISOString() },
    );
    const rows = async (of: string) => {
      const table = await planTable(store, "dropped", { depot: of, now: act.now });
      return table?.rows.map((row) => Object.fromEntries(table.head.map((name, i) => [name, row[i]])));
    };
    const told = { unit, depot, repair: scope, dropped_by: "A. Planner" };
    expect(await rows(depot)).toMatchObject([told]);
    const [{ extra_cost: extra, against_week: week } = {}] = (await rows(depot)) ?? [];
    expect(Number(extra)).toBeGreaterThan(0);
    expect(week).toBe(`${isoWeek(start).year}-W${String(isoWeek(start).week).padStart(2, "0")}`);
    expect(await rows("Nowhere")).toEqual([]);
    await planAnew(store, act, {}, inThisThread);
    expect(await rows(depot)).toMatchObject([told]);
    // What was dropped is told against the plan without it.
    const { cost = 0, unchosenCost } = (await planInForce(store))?.plan ?? {};
    expect(cost - (unchosenCost ?? cost)).toBeGreaterThan(0);
    const waiting = await planTable(store, "waiting", { depot: null, now: act.now });
    expect(waiting?.rows.filter((row) => row[0] === unit && row.includes("top-end"))).toEqual([]);
    store.close();
  });

  it("of job cards have a row for each booking, with what to check before the head comes off", async () => {
    const [cards, bookings] = await Promise.all([tableOf("job-cards"), tableOf("bookings")]);
    expect(cards.map((row) => [row["unit"], row["start"]])).toEqual(bookings.map((row) => [row["unit"], row["start"]]));
    for (const row of cards) {
      for (const name of ["finding", "check_first", "cautions", "cylinders"])
        expect(String(row[name]).length, name).toBeGreaterThan(0);
      const [low, likely, high] = ["low", "likely", "high"].map((edge) => Number(row[`hours_${edge}`]));
      expect((low ?? 0) < (likely ?? 0) && (likely ?? 0) < (high ?? 0)).toBe(true);
    }
  });

  it("of quotes have the booked class first, and each other one that has costs", async () => {
    const [quotes, bookings] = await Promise.all([tableOf("quotes"), tableOf("bookings")]);
    for (const { unit, repair } of bookings) {
      const own = quotes.filter((row) => row["unit"] === unit);
      expect(own[0]).toMatchObject({ repair, booked: "yes" });
      expect(own.length).toBeGreaterThan(1);
      expect(own.filter((row) => row["booked"] === "yes")).toHaveLength(1);
      for (const row of own) {
        const [labour, parts, machining, total] = ["labour", "parts", "machining", "total"].map((of) =>
          Number(row[`${of}_likely`]),
        );
        expect(Math.abs((labour ?? 0) + (parts ?? 0) + (machining ?? 0) - (total ?? 0))).toBeLessThan(
          0.05 * (total ?? 0),
        );
      }
    }
  });

  it("of a depot have its own rows alone, and all depots' come to the whole", async () => {
    for (const name of ["bookings", "load", "waiting", "parts", "job-cards"] as const) {
      const all = await tableOf(name);
      const depots = [...new Set(all.map((row) => String(row["depot"])))];
      expect(depots.length).toBeGreaterThan(1);
      const each = await Promise.all(depots.map((depot) => tableOf(name, depot)));
      for (const [i, rows] of each.entries())
        expect(new Set(rows.map((row) => row["depot"]))).toEqual(new Set([depots[i]]));
      expect(each.flat()).toHaveLength(all.length);
    }
  });
});
