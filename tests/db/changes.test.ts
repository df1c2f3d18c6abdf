import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dropReports, keepReports } from "@/db/assessments.ts";
import { changeCounts, changedUnits, historyBegins, unitIssues } from "@/db/changes.ts";
import { dateOfDay } from "@/db/days.ts";
import type { Store } from "@/db/store.ts";
import { compareStandings } from "@/lib/changes/compare.ts";
import type { Crossing } from "@/lib/schema/assessment.ts";
import type { ChangesQuery } from "@/lib/schema/changes.ts";
import { bands } from "@/lib/schema/words.ts";
import { temporaryStore } from "./made-up.ts";
import { crossed, report } from "./made-up-report.ts";

const [may, june, july] = ["2026-05-01T08:00:00.000Z", "2026-06-01T08:00:00.000Z", "2026-07-01T08:00:00.000Z"];
const frame = { asOf: "2026-07-01", horizonEnd: "2031-07-01" };
const since = (instant: string) => ({ ...frame, since: instant });
const everything: ChangesQuery = { kind: null, direction: null, depot: null, page: 1, pageSize: 50 };

const window = (p10: string | null, p50: string | null = null, p90: string | null = null): Crossing => ({
  status: p10 === null ? "not-foreseen" : "projected",
  meter: { p10: null, p50: null, p90: null },
  date: { p10, p50, p90 },
  probabilityWithinYear: 0.1,
});
const unchanged = window(null);

type Assessed = Parameters<typeof report>[1];
const keep = (
  store: Store,
  at: string,
  units: Readonly<Record<string, Assessed>>,
  because: "import" | "day" = "import",
) =>
  keepReports(
    store,
    Object.entries(units).map(([unit, made]) => report(unit, made)),
    { because, importId: because === "import" ? `import of ${at}` : null, at, version: 1 },
  );

const told = async (store: Store, instant: string, query: Partial<ChangesQuery> = {}) =>
  (await changedUnits(store, since(instant), { ...everything, ...query })).units.map(({ unit }) => unit);

/** Sound in May; in June W-1 gets worse, B-1 better, Q-1 asks a question, T-1 is only tested again; N-1 is new in July. */
async function fleet(): Promise<Store> {
  const store = await temporaryStore();
  await keep(store, may, {
    "S-1": {},
    "W-1": { depot: "North" },
    "W-2": {
      depot: "South",
      assessment: { repairs: { topEnd: window("2028-01-01", "2029-01-01"), bottomEnd: unchanged } },
    },
    "B-1": { assessment: { band: "plan" } },
    "Q-1": {},
    "T-1": {},
    "L-1": { depot: "North" },
  });
  await keep(store, june, {
    "W-1": {
      depot: "North",
      assessment: { band: "past-limit", repairs: { topEnd: crossed("2026-06-01"), bottomEnd: unchanged } },
    },
    "W-2": {
      depot: "South",
      assessment: { repairs: { topEnd: window("2027-01-01", "2028-01-01"), bottomEnd: unchanged } },
    },
    "B-1": { assessment: { band: "watch" } },
    "Q-1": { assessment: { questions: ["Was it repaired?"] } },
    "T-1": { assessment: { lastTestDate: "2026-05-30" } },
  });
  await dropReports(store, ["L-1"], { because: "undo", importId: "i-1", at: june, version: 1 });
  await keep(store, july, { "N-1": { assessment: { band: "plan" } } });
  return store;
}

describe("the units that changed since an instant", () => {
  it("come worst first, then what got neither worse nor better, then better ones, then those that left", async () => {
    const store = await fleet();
    expect(await told(store, may)).toEqual(["W-1", "W-2", "N-1", "Q-1", "B-1", "L-1"]);
    expect(await told(store, june)).toEqual(["N-1"]);
    expect(await told(store, july)).toEqual([]);
  });

  it.each([
    [{ kind: "band" }, ["W-1", "B-1"]],
    [{ kind: "window" }, ["W-1", "W-2"]],
    [{ kind: "question" }, ["Q-1"]],
    [{ kind: "fleet" }, ["N-1", "L-1"]],
    [{ kind: "test" }, ["N-1", "T-1"]],
    [{ direction: "worse" }, ["W-1", "W-2"]],
    [{ direction: "better" }, ["B-1"]],
    [{ depot: "North" }, ["W-1", "L-1"]],
    [{ depot: "North", direction: "worse" }, ["W-1"]],
    [{ page: 2, pageSize: 4 }, ["B-1", "L-1"]],
  ] as const)("by %o", async (query, expected) => {
    expect(await told(await fleet(), may, query)).toEqual(expected);
  });

  it("are counted by kind, with what they may be filtered by", async () => {
    const store = await fleet();
    expect(await changeCounts(store, since(may))).toEqual({
      told: 6,
      worse: 2,
      better: 1,
      band: 2,
      window: 2,
      question: 1,
      fleet: 2,
      test: 2,
    });
    expect(await changeCounts(store, since(july))).toMatchObject({ told: 0, test: 0 });
    expect((await changedUnits(store, since(may), { ...everything, page: 9 })).total).toBe(6);
    expect(await historyBegins(store)).toBe(may);
    expect(await historyBegins(await temporaryStore())).toBeNull();
  });

  it("are told by what stood then and what stands now; one that left and one that is new by one of the two", async () => {
    const { units, total } = await changedUnits(await fleet(), since(may), everything);
    expect(total).toBe(6);
    const [worse] = units;
    expect(worse).toMatchObject({
      unit: "W-1",
      depot: "North",
      modelName: "Four in line",
      was: { band: "sound", madeAt: may, because: "import", basis: { perDay: 5, meterUnit: "h", pools: [] } },
      now: { band: "past-limit", madeAt: june, topEnd: { status: "crossed", p10: "2026-06-01" } },
    });
    expect(units.find(({ unit }) => unit === "N-1")?.was).toBeNull();
    expect(units.find(({ unit }) => unit === "L-1")).toMatchObject({ depot: "North", modelName: null, now: null });
  });

  it("are those of the standing then, whatever was issued in between", async () => {
    const store = await temporaryStore();
    await keep(store, may, { "V-1": {} });
    await keep(store, june, { "V-1": { assessment: { band: "past-limit" } } });
    await keep(store, july, { "V-1": {} });
    expect(await told(store, may)).toEqual([]);
    expect(await told(store, june)).toEqual(["V-1"]);
  });

  it("were in the fleet then only if they had not left before; who came and went is not told of", async () => {
    const store = await temporaryStore();
    await keep(store, may, { "V-1": {} });
    await dropReports(store, ["V-1", "V-9"], { because: "undo", at: may, version: 1 });
    await keep(store, june, { "V-1": {}, "V-2": {} });
    await dropReports(store, ["V-2"], { because: "undo", at: june, version: 1 });
    const { units } = await changedUnits(store, since(may), everything);
    expect(units.map(({ unit, was }) => [unit, was])).toEqual([["V-1", null]]);
  });
});

describe("a day's telling", () => {
  const plan = { asOf: "2026-07-01", assessment: { band: "plan" } } as const;

  it("goes into the history only where it is news", async () => {
    const store = await temporaryStore();
    await keep(store, may, { "V-1": {}, "V-2": {} });
    await keepReports(store, [report("V-1", plan), report("V-2", plan)], {
      because: "day",
      at: july,
      version: 1,
      isNews: (was, now) => was.band === "sound" && now.asOf === "2026-07-01",
    });
    await keepReports(store, [report("V-1")], { because: "day", at: july, version: 1, isNews: () => false });
    expect((await unitIssues(store, "V-1", 9)).map(({ because, band }) => [because, band])).toEqual([
      ["day", "plan"],
      ["import", "sound"],
    ]);
    expect(await told(store, june)).toEqual(["V-2"]);
  });
});

describe("what SQL says of a change", () => {
  const day = (least: number, most: number) =>
    fc.option(fc.integer({ min: least, max: most }).map(dateOfDay), { nil: null });
  // Around the as-of date, in steps that lie about the limits of what counts, and about the horizon.
  const crossing = fc
    .tuple(
      day(20590, 20730),
      fc.integer({ min: 0, max: 400 }),
      fc.integer({ min: 0, max: 400 }),
      fc.constantFrom(0, 1, 2, 3),
      fc.boolean(),
    )
    .map(([early, more, most, shown, far]): Crossing => {
      if (early === null) return { ...unchanged, status: shown > 1 ? "not-foreseen" : "too-few-tests" };
      if (shown === 3) return crossed(early);
      const at = Date.parse(early) / 86_400_000 + (far ? 1700 : 0);
      const dates = [at, at + more, at + more + most]
        .map(dateOfDay)
        .map((date) => (date > frame.horizonEnd ? null : date));
      return window(dates[0] ?? null, shown < 1 ? null : (dates[1] ?? null), shown < 2 ? null : (dates[2] ?? null));
    });
  const standing = fc.record({
    band: fc.option(fc.constantFrom(...bands), { nil: null }),
    lastTestDate: day(20500, 20510),
    questions: fc.integer({ min: 0, max: 1 }).map((n) => Array(n).fill("?") as string[]),
    repairs: fc.record({ topEnd: crossing, bottomEnd: crossing }),
  });

  it("is what the rule in words says of it", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(standing, standing), { minLength: 1, maxLength: 8 }), async (pairs) => {
        const store = await temporaryStore();
        const named = (side: 0 | 1) =>
          Object.fromEntries(pairs.map((pair, i) => [`V-${i}`, { assessment: pair[side] }]));
        await keep(store, may, named(0));
        await keep(store, june, named(1));
        const of = async (query: Partial<ChangesQuery>) => new Set(await told(store, may, query));
        const found = {
          band: await of({ kind: "band" }),
          window: await of({ kind: "window" }),
          question: await of({ kind: "question" }),
          test: await of({ kind: "test" }),
          told: await of({}),
          worse: await of({ direction: "worse" }),
          better: await of({ direction: "better" }),
        };
        const side = (assessment: (typeof pairs)[number][0]) => ({
          asOf: "2026-06-30",
          band: assessment.band,
          lastTestDate: assessment.lastTestDate,
          questions: assessment.questions.length,
          topEnd: { status: assessment.repairs.topEnd.status, ...assessment.repairs.topEnd.date },
          bottomEnd: { status: assessment.repairs.bottomEnd.status, ...assessment.repairs.bottomEnd.date },
        });
        for (const [i, [was, now]] of pairs.entries()) {
          const change = compareStandings(side(was), side(now), frame);
          const unit = `V-${i}`;
          expect({
            band: found.band.has(unit),
            window: found.window.has(unit),
            question: found.question.has(unit),
            test: found.test.has(unit),
            told: found.told.has(unit),
            direction: found.worse.has(unit) ? "worse" : found.better.has(unit) ? "better" : null,
          }).toEqual({
            band: change.band !== null,
            window: change.topEnd !== null || change.bottomEnd !== null,
            question: change.questions !== null,
            test: change.newerTest !== null,
            told: change.told,
            direction: change.direction,
          });
        }
      }),
      { numRuns: 60 },
    );
  });
});
