import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { offBestWords } from "../../../app/_ui/plan/off-best-words.ts";
import { dropWords, qualityWords, wholeMoney } from "../../../app/_ui/plan/plan-words.ts";
import { canWait } from "../../../lib/plan/can-wait.ts";
import { keptPlan } from "../../../lib/plan/keep-plan.ts";
import { makePlan } from "../../../lib/plan/make-plan.ts";
import { resourceKey, takersOf, usesOf } from "../../../lib/plan/overloads.ts";
import { type PlanProblem, totalOf } from "../../../lib/plan/types.ts";
import type { Overload, Pin } from "../../../lib/schema/kept-plan.ts";
import { workshopSchema } from "../../../lib/schema/workshop.ts";
import { formatsOf } from "../../../lib/viewing/formats.ts";
import { plainPreferences } from "../../../lib/viewing/preferences.ts";
import { need, outlookNamed, planUnit, problemOf, topEnd, weeksOf } from "./problem.ts";

const highs = await loadHighs();
const effort = {
  gap: 0,
  seconds: 60,
  tellsChoices: true,
  clock: () => performance.now() / 1000,
  onProgress: () => true,
};
const f = formatsOf(plainPreferences);

const roomy = workshopSchema.parse({});
const grouped = workshopSchema.parse({ groups: [{ name: "Ring road", units: ["V-1", "V-2"], mostOut: 1 }] });

function keptOf(more: Partial<PlanProblem>, workshop = roomy) {
  const groups = workshop.groups.map(({ name }) => name);
  // A day off costs much in all weeks but two, so that each unit has a best week.
  const units = ["V-1", "V-2"].map((unit) =>
    planUnit(unit, {
      needs: [need("topEnd", 20, 2)],
      works: [topEnd],
      groups,
      peakFactor: 20,
      peakWeeks: new Set(Array.from({ length: 64 }, (_, week) => week).filter((week) => week !== 18 && week !== 10)),
    }),
  );
  const mostOut = Object.fromEntries(workshop.groups.map((group) => [group.name, group.mostOut]));
  const problem = problemOf(units, { mostOut, ...more });
  const setUp = { problem, leftOut: [], outside: [] };
  const plan = keptPlan(makePlan(highs, problem, effort), setUp, {
    workshop,
    outlooks: ["V-1", "V-2"].map(outlookNamed),
  });
  return { problem, plan };
}

const pinnedAt = (week: number): Pin[] => [{ unit: "V-1", scope: "top-end", week }];

describe("a booking that is not in its best week", () => {
  it("is told with what that costs, and the group that keeps it out with who takes the place", () => {
    const { problem, plan } = keptOf({ pins: pinnedAt(18) }, grouped);
    const booking = plan.bookings.find(({ unit }) => unit === "V-2");
    if (booking?.offBest === undefined) throw new Error("it is in its best week");
    const costs = canWait(problem, "V-2").map(({ cost }) => totalOf(cost));
    expect(booking.offBest.extra).toBeCloseTo(totalOf(booking.cost) - Math.min(...costs), 6);
    expect(booking.offBest.ways[0]?.lacks).toMatchObject([
      { resource: { kind: "out-together", group: "Ring road", week: 18 }, capacity: 1, used: 2 },
    ]);
    const says = offBestWords(f, booking, {
      of: booking.offBest,
      money: String,
      takers: takersOf(plan.bookings, problem, grouped),
      firstMonday: problem.firstMonday,
      asOf: problem.firstMonday,
    });
    expect(says).toContain(
      "lacks 1 unit off the road allowed by the group Ring road in week\u00a02 of 2027 (taken by V-1, pinned).",
    );
  });

  it("is told of each kind of what is missing the cheapest week", () => {
    // Week 18 has no bay for a second one, and the group keeps both out of all weeks of the other.
    const bays = weeksOf(64, (week) => (week === 18 ? { bayDays: 3 } : {}));
    const { plan } = keptOf({ pins: pinnedAt(18), depots: [{ depot: "Lowmarsh", weeks: bays }] });
    const booking = plan.bookings.find(({ unit }) => unit === "V-2");
    expect(booking?.offBest?.ways[0]?.lacks).toMatchObject([
      { resource: { kind: "bay-days", week: 18 }, capacity: 3, used: 4 },
    ]);
  });

  it("is not told of one that stands at its best", () => {
    const { plan } = keptOf({});
    expect(plan.bookings).toHaveLength(2);
    expect(plan.bookings.every(({ offBest }) => offBest === undefined)).toBe(true);
  });
});

describe("what pins cost", () => {
  it("is told against the plan without them", () => {
    const free = keptOf({}, grouped).plan;
    const { plan } = keptOf({ pins: pinnedAt(30) }, grouped);
    expect(free.unchosenCost).toBeNull();
    // What each unit costs adds up to the fleet, but for the rounding of each.
    const sum = Object.values(plan.costByUnit).reduce((a, b) => a + b, 0);
    expect(Math.abs(sum - plan.cost)).toBeLessThanOrEqual(1);
    expect(plan.unchosenCost).toBeCloseTo(free.cost, 6);
    expect(plan.cost).toBeGreaterThan(free.cost);
    expect(qualityWords(f, plan)).toMatch(
      /^No cheaper one exists round what people chose\. Pins and drops cost [\d,]+, against the plan without them\./,
    );
    expect(qualityWords(f, free)).toMatch(/^No cheaper one exists\. Against/);
  });

  const chosen = { cost: 100_000_000, bound: 99_950_000, unchosenCost: 100_060_000, currency: "EUR", overloads: [] };
  const round = { ...chosen, nothingBookedCost: 150_000_000, firstComeCost: 110_000_000 };
  const over = [
    { resource: { kind: "bay-days", depot: "Lowmarsh", week: 3 }, capacity: 0, used: 2 },
  ] as const satisfies readonly Overload[];

  it("is told of nothing within the slack of the solver, either way", () => {
    for (const unchosenCost of [100_060_000, 100_000_000, 99_910_000]) {
      expect(qualityWords(f, { ...round, unchosenCost })).toContain(" Pins and drops cost nothing that can be told. ");
      expect(qualityWords(f, { ...round, unchosenCost, overloads: over })).toContain("nothing that can be told");
    }
    expect(qualityWords(f, { ...round, unchosenCost: 99_800_000 })).toMatch(
      / Pins and drops cost EUR\s2,000, against /,
    );
  });

  it("is told of nothing where the plan was left further from its bound than that", () => {
    const cut = { ...round, bound: 95_000_000 };
    expect(qualityWords(f, { ...cut, unchosenCost: 96_000_000 })).toContain("nothing that can be told");
    expect(qualityWords(f, { ...cut, unchosenCost: 94_000_000 })).toMatch(/Pins and drops cost EUR\s60,000, against/);
  });

  it("is told to be less than nothing only where pins take more than there is", () => {
    const dearer = { ...round, unchosenCost: 104_000_000 };
    expect(qualityWords(f, dearer)).toContain("nothing that can be told");
    expect(qualityWords(f, { ...dearer, overloads: over })).toMatch(
      /Pins and drops cost EUR\s40,000 less than the plan without them: they take more than there is\./,
    );
  });
});

describe("what a drop costs", () => {
  const told = (currency: string, extra: number) =>
    dropWords(wholeMoney(f, currency), { extra, week: "2026-11-02" }, "2026-09-01");

  it("is nothing where it rounds to nothing in the currency, whatever its minor unit", () => {
    expect(told("EUR", 49)).toMatch(/^Leaving it costs no more than /);
    expect(told("EUR", -49)).toMatch(/^Leaving it costs no more than /);
    expect(told("EUR", 51)).toMatch(/^Leaving it costs EUR\s1 more than /);
    expect(told("JPY", 49)).toMatch(/^Leaving it costs JPY\s49 more than /);
    expect(told("KWD", -490)).toMatch(/^Leaving it costs no more than /);
  });
});

describe("who takes what", () => {
  it("is known by resource, in the order of the bookings", () => {
    const { problem, plan } = keptOf({ pins: pinnedAt(18) });
    const takers = takersOf(plan.bookings, problem, roomy);
    for (const [key, units] of takers) {
      const slow = plan.bookings.filter((one) =>
        usesOf(one, problem, roomy).some(({ resource }) => resourceKey(resource) === key),
      );
      expect(units).toEqual(slow);
    }
    expect([...takers.values()].some((of) => of.length === 2)).toBe(true);
  });
});
