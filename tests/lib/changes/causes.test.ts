import { describe, expect, it } from "vitest";
import { changeCauses, type Explained } from "@/lib/changes/causes.ts";
import type { AssessmentBasis, BasisTest } from "@/lib/schema/changes.ts";
import { settingsSchema } from "@/lib/schema/settings.ts";

const leakDown = { watchPercent: 10, planPercent: 20, limitPercent: 30 };
const test = (date: string, more: Partial<BasisTest> = {}): BasisTest => ({
  date,
  measure: "leak-down",
  attempt: 1,
  used: true,
  readings: "a",
  ...more,
});

const basis: AssessmentBasis = {
  perDay: 100,
  meterUnit: "km",
  season: null,
  pools: ["p1", "p2"],
  lastRead: { date: "2026-04-07", meter: 91_000 },
  engineSerial: "4711",
  status: "in-service",
  tests: [test("2025-05-01"), test("2026-03-01")],
  repairs: [{ date: "2024-05-01", scope: "top-end", cylinders: [4] }],
  checks: [],
  limits: { minimumKpa: 900, spread: 25, leakDown, valves: null },
  settings: settingsSchema.parse({}),
};
const was: Explained = { asOf: "2026-06-30", lastTestDate: "2026-03-01", because: "import", basis };

/** Why an assessment differs whose basis differs by this, made on the same day unless told. */
const why = (more: Partial<AssessmentBasis>, told: Partial<Explained> = {}) =>
  changeCauses(was, { ...was, basis: { ...basis, ...more }, ...told }).map(({ kind, words }) => `${kind}: ${words}`);

describe("the reason", () => {
  const tests = basis.tests ?? [];
  it.each([
    [{ pools: ["p1", "p3"] }, "pool: what its sister engines show, reckoned anew"],
    [
      { pools: ["p1", "p3"], widths: { "leak-down": 1.2 } },
      "pool: ranges widened by how past forecasts of its model turned out",
    ],
    [
      { pools: ["p1", "p3"], widths: { "leak-down": 0.9 } },
      "pool: ranges narrowed by how past forecasts of its model turned out",
    ],
    [{ tests: [...tests, test("2026-06-24")] }, "test: new leak-down test on 24 Jun 2026"],
    [
      { tests: [...tests, test("2026-05-02"), test("2026-06-24")] },
      "test: new leak-down tests on 2 May 2026 and 24 Jun 2026",
    ],
    [
      { tests: [...tests, ...["01", "02", "03", "04"].map((month) => test(`2026-${month}-09`))] },
      "test: new leak-down tests on 4 days, last on 9 Apr 2026",
    ],
    [
      { tests: [...tests, test("2026-06-24", { measure: "compression-dry", used: false })] },
      "test: new compression test on 24 Jun 2026, kept but not used",
    ],
    [{ tests: tests.slice(0, 1) }, "test: leak-down test on 1 Mar 2026 taken back"],
    [
      { tests: [test("2025-05-01", { used: false }), ...tests.slice(1)] },
      "test: leak-down test on 1 May 2025 no longer used",
    ],
    [
      { tests: [test("2025-05-01", { readings: "b" }), ...tests.slice(1)] },
      "test: leak-down test on 1 May 2025 corrected",
    ],
    [{ perDay: 120 }, "use: use rose from 700 to 840 km a week"],
    [{ season: [0.5, 1.2, 1.5, 0.8] }, "use: use told by season now, as such units show"],
    [{ perDay: 50 }, "use: use fell from 700 to 350 km a week"],
    [{ lastRead: { date: "2026-06-20", meter: 101_000 } }, "use: meter read on 20 Jun 2026"],
    [{ lastRead: { date: "2025-12-20", meter: 80_000 } }, "use: a reading of the meter taken back"],
    [{ lastRead: null }, "use: a reading of the meter taken back"],
    [{ perDay: 100, meterUnit: "h" as const }, "use: meter in h, no longer in km"],
    [
      { repairs: [...(basis.repairs ?? []), { date: "2026-04-02", scope: "top-end" as const, cylinders: [2, 3] }] },
      "repair: top-end repair, cylinders 2 and 3, on 2 Apr 2026",
    ],
    [{ repairs: [] }, "repair: top-end repair, cylinder 4, on 1 May 2024 taken back"],
    [{ checks: [{ date: "2026-06-02", check: "borescope" as const, cylinder: 2 }] }, "check: borescope on 2 Jun 2026"],
    [
      {
        limits: {
          minimumKpa: 950,
          spread: 25,
          leakDown: { ...leakDown, planPercent: 18, limitPercent: 28 },
          valves: null,
        },
      },
      "limit: leakage limit from 30 to 28 % and plan level from 20 to 18 %",
    ],
    [
      { limits: { minimumKpa: 950, spread: 25, leakDown, valves: null } },
      "limit: minimum compression from 900 to 950 kPa",
    ],
    [{ limits: { minimumKpa: null, spread: 25, leakDown, valves: null } }, "limit: minimum compression withdrawn"],
    [
      { limits: { minimumKpa: 900, spread: 20, leakDown, valves: leakDown } },
      "limit: valve leakage limit set to 30 %, plan level set to 20 % and watch level set to 10 %",
    ],
    [{ settings: settingsSchema.parse({ leadTimeMonths: 18 }) }, "limit: planning lead time from 12 to 18 months"],
    [
      { settings: settingsSchema.parse({ planProbability: 0.2 }) },
      "limit: chance that makes a unit one to plan from 30 to 20 %",
    ],
    // Two figures that differ are never told alike.
    [
      { settings: settingsSchema.parse({ planProbability: 0.304 }) },
      "limit: chance that makes a unit one to plan from 30 to 30.4 %",
    ],
    [{ settings: settingsSchema.parse({ horizonYears: 1 }) }, "limit: horizon from 5 years to 1 year"],
    [{ settings: settingsSchema.parse({ horizonYears: 5.5 }) }, "limit: horizon from 5 to 5.5 years"],
    [
      { limits: { minimumKpa: 900.4, spread: 25, leakDown, valves: null } },
      "limit: minimum compression from 900.0 to 900.4 kPa",
    ],
    [{ pools: ["p1", "p3"] }, "pool: what its sister engines show, reckoned anew"],
    [{ engineSerial: "4712" }, "engine: engine 4712 in place of 4711"],
    [{ status: "stopped" as const }, "status: taken out of service"],
  ])("of %o is told", (more, expected) => expect(why(more)[0]).toBe(expected));

  it("of a test is told once, not with its meter as well", () => {
    const after = { tests: [...tests, test("2026-06-24")], lastRead: { date: "2026-06-24", meter: 101_000 } };
    expect(why(after)).toEqual(["test: new leak-down test on 24 Jun 2026"]);
  });

  it("is not what moved by less than is told as noise", () => {
    expect(why({ perDay: 109 })).toEqual(["program: reckoned anew from the same facts"]);
  });

  it("is that days went by where nothing else is different, and beside others after a month", () => {
    expect(why({}, { asOf: "2026-07-12" })).toEqual(["time: 12 days went by"]);
    expect(why({ perDay: 50 }, { asOf: "2026-07-12" })).toHaveLength(1);
    expect(why({ perDay: 50 }, { asOf: "2026-07-30" })).toEqual([
      "use: use fell from 700 to 350 km a week",
      "time: 30 days went by",
    ]);
  });

  it("stands before less likely ones where several came together", () => {
    const all = why(
      {
        pools: ["p9"],
        perDay: 200,
        tests: [...tests, test("2026-06-24")],
        repairs: [],
        engineSerial: "9",
        limits: { minimumKpa: 800, spread: 25, leakDown, valves: null },
      },
      { asOf: "2026-09-30" },
    );
    expect(all.map((each) => each.split(":")[0])).toEqual(["engine", "repair", "limit", "test", "use", "pool", "time"]);
  });
});

it("tells two uses so finely that they differ", () => {
  const at = (perDay: number) => ({ ...was, basis: { ...basis, perDay } });
  expect(changeCauses(at(0.01), at(0.012)).map(({ words }) => words)).toEqual(["use rose from 0.07 to 0.08 km a week"]);
});

describe("an assessment that kept less when it was issued", () => {
  const { perDay, meterUnit, pools } = basis;
  const old: Explained = { ...was, basis: { perDay, meterUnit, pools } };

  it("is compared by what it kept, and by the date of its last test", () => {
    const now = { ...was, basis: { ...basis, perDay: 200, repairs: [] }, lastTestDate: "2026-06-24" };
    expect(changeCauses(old, now).map(({ words }) => words)).toEqual([
      "new test on 24 Jun 2026",
      "use rose from 700 to 1,400 km a week",
    ]);
    expect(changeCauses(old, { ...was, lastTestDate: null })).toEqual([{ kind: "test", words: "a test taken back" }]);
    expect(changeCauses({ ...old, basis: null }, was)).toEqual([
      { kind: "program", words: "reckoned anew from the same facts" },
    ]);
  });
});

it("tells a season that came, went or moved, and none that was not kept or of a unit that stands", () => {
  const [summer, later] = [
    [0.5, 1.2, 1.5, 0.8],
    [0.5, 1.0, 1.5, 1.0],
  ];
  const told = (before: Partial<AssessmentBasis>, after: Partial<AssessmentBasis>) =>
    changeCauses({ ...was, basis: { ...basis, ...before } }, { ...was, basis: { ...basis, ...after } }).map(
      ({ words }) => words,
    );
  expect(told({ season: summer }, { season: null })).toEqual(["use no longer told by season: such units show none"]);
  expect(told({ season: summer }, { season: later })).toEqual(["season of use told anew, as such units show"]);
  expect(told({ season: summer }, { season: [0.52, 1.19, 1.49, 0.8] })).toEqual(["reckoned anew from the same facts"]);
  const { season, ...older } = basis;
  expect(changeCauses({ ...was, basis: older }, { ...was, basis: { ...basis, season: summer } })[0]?.kind).toBe(
    "program",
  );
  expect(told({ season: summer }, { season: null, perDay: 0, status: "stopped" })).not.toContain(
    "use no longer told by season: such units show none",
  );
});
