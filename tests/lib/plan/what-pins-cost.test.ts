import loadHighs, { type Highs } from "highs";
import { describe, expect, it } from "vitest";
import { makePlan, type PlanEffort } from "../../../lib/plan/make-plan.ts";
import type { PlanProblem } from "../../../lib/plan/types.ts";
import type { Booking, Pin } from "../../../lib/schema/kept-plan.ts";
import { need, planUnit, problemOf, weeksOf } from "./problem.ts";

const highs = await loadHighs();
const effort: PlanEffort = { gap: 0.02, seconds: 20, clock: () => performance.now() / 1000, onProgress: () => true };

/** Units that crowd one workshop. */
const crowded = (count: number, more: Partial<PlanProblem> = {}): PlanProblem =>
  problemOf(
    Array.from({ length: count }, (_, i) =>
      planUnit(`U-${i}`, { needs: [need("topEnd", 5 + (i % 30)), need("bottomEnd", 10 + ((7 * i) % 40))] }),
    ),
    more,
  );

const pinsOf = (bookings: readonly Booking[]): Pin[] =>
  bookings.map(({ unit, scope, week }) => ({ unit, scope, week }));

/** The same solver with its models changed. */
function withModels(change: (model: ReturnType<Highs["createModel"]>) => void): Highs {
  const createModel: Highs["createModel"] = (...given) => {
    const model = highs.createModel(...given);
    change(model);
    return model;
  };
  return new Proxy(highs, { get: (of, key) => (key === "createModel" ? createModel : Reflect.get(of, key)) });
}

/** The same solver, which notes how long it may take each time. */
const noting = (limits: number[]): Highs =>
  withModels((model) => {
    const set = model.options.set.bind(model.options);
    model.options.set = (options) => {
      if (typeof options === "string") throw new Error("options are set together");
      limits.push(Number(options["time_limit"]));
      return set(options);
    };
  });

/** The same solver, which tells of itself once before it begins, having found nothing: a small plan is made before it would. */
const asking: Highs = withModels((model) => {
  const run = model.run.bind(model);
  model.run = (callbacks) => {
    const data = { mip_primal_bound: 1e30, mip_dual_bound: -1e30 };
    callbacks?.[highs.constants.callbackType.mipInterrupt]?.({ data, interrupt: () => {} } as never);
    return run(callbacks);
  };
});

describe("the plan without what people chose", () => {
  it("is never dearer than the plan round pins that take no more than there is", () => {
    const free = makePlan(highs, crowded(8), { ...effort, gap: 0 });
    // Without any time the plan made by rule is the best that is found: much slack, and the same each time.
    let now = 0;
    const hurried: PlanEffort = { ...effort, seconds: 1, clock: () => now++, tellsChoices: true };
    expect(makePlan(highs, crowded(8), hurried).cost).toBeGreaterThan(free.cost);
    const plan = makePlan(highs, crowded(8, { pins: pinsOf(free.bookings) }), hurried);
    expect(plan.overloads).toEqual([]);
    expect(plan.cost).toBeCloseTo(free.cost, 6);
    expect(plan.unchosenCost).toBe(plan.cost);
  });

  it("may be dearer where pins take more than there is", () => {
    const narrow = [{ depot: "Lowmarsh", weeks: weeksOf(64, () => ({ bayDays: 2 })) }];
    const roomy = makePlan(highs, crowded(8), { ...effort, gap: 0 });
    const pins = pinsOf(roomy.bookings);
    const plan = makePlan(highs, crowded(8, { depots: narrow, pins }), { ...effort, gap: 0, tellsChoices: true });
    expect(plan.overloads.length).toBeGreaterThan(0);
    expect(plan.unchosenCost).toBeGreaterThan(plan.cost);
  });

  it("is looked for only where it is asked for, within the seconds of the whole", () => {
    const pins: Pin[] = [{ unit: "U-3", scope: "top-end", week: 8 }];
    const limitsOf = (problem: PlanProblem, tellsChoices: boolean) => {
      const limits: number[] = [];
      const plan = makePlan(noting(limits), problem, { ...effort, seconds: 60, clock: () => 0, tellsChoices });
      return { limits, isTold: plan.unchosenCost !== null };
    };
    expect(limitsOf(crowded(6, { pins }), true)).toEqual({ limits: [45, 15], isTold: true });
    expect(limitsOf(crowded(6, { pins }), false)).toEqual({ limits: [60], isTold: false });
    expect(limitsOf(crowded(6), true)).toEqual({ limits: [60], isTold: false });
  });

  it("lets the progress go on counting, with the cost of the plan itself", () => {
    let now = 0;
    const told: { readonly seconds: number; readonly cost: number | null }[] = [];
    const pins: Pin[] = [{ unit: "U-3", scope: "top-end", week: 8 }];
    const plan = makePlan(asking, crowded(6, { pins }), {
      ...effort,
      seconds: 60,
      clock: () => now++,
      tellsChoices: true,
      onProgress: ({ seconds, cost }) => told.push({ seconds, cost }) > 0,
    });
    const [first, last] = [told[0], told.at(-1)];
    if (first === undefined || last === undefined) throw new Error("nothing was told");
    expect(told.length).toBeGreaterThan(1);
    expect(last.seconds).toBeGreaterThan(first.seconds);
    expect(told.map(({ seconds }) => seconds)).toEqual(told.map(({ seconds }) => seconds).toSorted((a, b) => a - b));
    expect(first.cost).toBeGreaterThanOrEqual(plan.cost);
    expect(last.cost).toBe(plan.cost);
  });
});
