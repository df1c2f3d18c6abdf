import { solver } from "../../app/_jobs/solver.ts";
import { table } from "../../cli/table.ts";
import { seededRandom } from "../../demo-data/random.ts";
import { makePlan } from "../../lib/plan/make-plan.ts";
import type { PlanProblem, PlanUnit } from "../../lib/plan/types.ts";
import { numberWords } from "../../lib/wording.ts";
import { need, never, planUnit, problemOf, weeksOf } from "../lib/plan/problem.ts";

/** How near to the least a plan comes and how long that takes, beside one that is made first come, first served. */

export interface PlanFigures {
  readonly units: number;
  readonly depots: number;
  readonly weeks: number;
  readonly options: string;
  readonly seconds: number;
  readonly booked: number;
  readonly notFitted: number;
  readonly cost: number;
  readonly bound: number;
  readonly firstComeCost: number;
  readonly nothingBookedCost: number;
}

export interface PlanSize {
  readonly units: number;
  readonly depots: number;
  readonly weeks: number;
  readonly gap: number;
  readonly seconds: number;
}

/** A third of the units comes to need each class of repair within three years; a bay for sixty units, closed at the year's end. */
function madeUpFleet({ units: count, depots: depotCount, weeks }: PlanSize, seed: number): PlanProblem {
  const random = seededRandom(seed);
  const mayNeed = (of: "topEnd" | "bottomEnd", last: number) =>
    random.uniform() < 0.35 ? need(of, random.between(-10, last), random.between(4, 40)) : never(of);
  const units = Array.from(
    { length: count },
    (_, i): PlanUnit =>
      planUnit(`U-${i}`, {
        depot: `D-${i % depotCount}`,
        needs: [mayNeed("topEnd", 140), mayNeed("bottomEnd", 180)],
        dayCost: Math.round(random.between(4_000, 30_000)),
      }),
  );
  const bays = Math.ceil(count / depotCount / 60);
  const closed = { openDays: 0, bayDays: 0, hours: 0, builderHours: 0 };
  const open = { bayDays: 5 * bays, hours: 60 * bays, builderHours: 40 * Math.ceil(bays / 2) };
  return problemOf(units, {
    weeks,
    depots: Array.from({ length: depotCount }, (_, d) => ({
      depot: `D-${d}`,
      weeks: weeksOf(weeks + 26, (week) => {
        const ofYear = week % 52;
        if (ofYear >= 46 || ofYear < 2) return closed;
        return { ...open, peakShare: ofYear > 20 && ofYear < 30 ? 1 : 0 };
      }),
    })),
  });
}

export async function measurePlans(sizes: readonly PlanSize[]): Promise<PlanFigures[]> {
  const highs = await solver();
  return sizes.map((size): PlanFigures => {
    const problem = madeUpFleet(size, 3);
    const begun = performance.now();
    const plan = makePlan(highs, problem, {
      gap: size.gap,
      seconds: size.seconds,
      clock: () => performance.now() / 1000,
      onProgress: () => true,
    });
    return {
      ...size,
      options: numberWords(plan.options),
      seconds: (performance.now() - begun) / 1000,
      booked: plan.bookings.length,
      notFitted: plan.notFitted.length,
      cost: plan.cost,
      bound: plan.bound,
      firstComeCost: plan.firstComeCost,
      nothingBookedCost: plan.nothingBookedCost,
    };
  });
}

/** The gap is told as a share of the whole cost, and as a share of what a plan can save at most. */
export const planTable = (figures: readonly PlanFigures[]): string =>
  table(
    [
      "units",
      "depots",
      "weeks",
      "options",
      "time",
      "booked",
      "no room",
      "above the bound",
      "of what can be saved",
      "first come, first served saves",
      "the plan saves",
    ],
    figures.map((of) => {
      const most = of.nothingBookedCost - of.bound;
      const share = (amount: number, whole: number) => `${((100 * amount) / whole).toFixed(2)} %`;
      return [
        numberWords(of.units),
        String(of.depots),
        String(of.weeks),
        of.options,
        `${of.seconds.toFixed(1)} s`,
        String(of.booked),
        String(of.notFitted),
        share(of.cost - of.bound, of.cost),
        share(of.cost - of.bound, most),
        share(of.nothingBookedCost - of.firstComeCost, most),
        share(of.nothingBookedCost - of.cost, most),
      ];
    }),
    [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
  );
