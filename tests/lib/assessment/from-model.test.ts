import { describe, expect, it } from "vitest";
import type { AssessedUnit } from "@/lib/assess.ts";
import { wearPoolFor } from "@/lib/assessment/pools.ts";
import { addDays, daysBetween } from "@/lib/calendar.ts";
import { clockAt } from "@/lib/projection/clock.ts";
import type { UseForecast, WearPool, WearShape } from "@/lib/projection/types.ts";
import { reportUnit } from "@/lib/report.ts";
import type { RepairFact } from "@/lib/schema/facts.ts";
import { type Random, seededRandom } from "../../../demo-data/random.ts";
import { meterFact, repairFact, unitFact } from "../sealing/facts.ts";
import { assessedFleet, halfYearly, petrol4, worn } from "./made-up-fleet.ts";

const asOf = "2026-06-30";

/** V-101 never tested, at some 60 km a day; three sisters that wear at different rates. */
const sisterUnits = ["V-201", "V-202", "V-203"];
const sisters = sisterUnits.flatMap((unit, i) => halfYearly(worn(6, 6 + 3 * i, 1 + i), { unit }));
const meters = [0, 1, 2, 3, 4, 5].map((i) => meterFact({ date: `2026-0${i + 1}-01`, meter: 90_000 + 1800 * i }));
const units = (...more: string[]) => [...sisterUnits, "V-101", ...more].map((name) => unitFact({ unit: name }));
const assessed = (facts: Parameters<typeof assessedFleet>[0] = {}) =>
  assessedFleet({ tests: sisters, meterReadings: meters, units: units(), ...facts }, { asOf, horizonYears: 15 });
const unit = (all: readonly AssessedUnit[], name: string): AssessedUnit => {
  const found = all.find((each) => each.unit.unit === name);
  if (found === undefined) throw new Error(`no unit ${name}`);
  return found;
};

/**
 * Days until the first of the model's cylinders meets its limit, for engines drawn from the pool: one in five lies two
 * and a half times as far off (projection/project.ts). Leakage wanders between steps of a hundredth of the way.
 */
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 1e-12);

function drawnDays(
  random: Random,
  pool: WearPool,
  use: UseForecast,
  { limit, xNow, horizonDays }: { readonly limit: number; readonly xNow: number; readonly horizonDays: number },
): number {
  const far = random.uniform() < 0.2 ? 2.5 : 1;
  const normal = (sd: number) => far * random.normal(0, sd);
  const drawn = random.uniform();
  const shape = pool.shapes.find(
    (_, i) => drawn <= sum(pool.shapes.slice(0, i + 1).map((one) => one.weight)),
  ) as WearShape;
  const [level, rate] = [normal(shape.levelSd), normal(shape.rateSd)];
  const perDay = use.perDay * Math.exp(random.normal(0, use.logSd));
  const steps = 100;
  const distance = (perDay * horizonDays) / steps;
  let first = Number.POSITIVE_INFINITY;
  for (let cylinder = 0; cylinder < petrol4.cylinders; cylinder++) {
    const slope = shape.rateMean + rate + normal(shape.ownRateSd);
    const wander = shape.wander + shape.ownWander;
    const clock = (ahead: number) => clockAt({ from: 0, power: shape.power, unit: pool.clockUnit }, xNow + ahead);
    let at =
      shape.levelMean +
      level +
      normal(shape.ownLevelSd) +
      slope * clock(0) +
      random.normal(0, Math.sqrt(wander * clock(0)));
    let step = 0;
    for (; step < steps && at < limit; step++) {
      const turns = clock((step + 1) * distance) - clock(step * distance);
      const next = at + slope * turns + random.normal(0, Math.sqrt(wander * turns));
      // Between two steps below the limit the leakage may have met it and gone back (reflection of the Wiener process).
      const between = Math.exp((-2 * (limit - at) * (limit - next)) / (wander * turns));
      at = next < limit && random.uniform() < between ? limit : next;
    }
    if (at >= limit) first = Math.min(first, (step / steps) * horizonDays);
  }
  return first;
}

describe("the windows that the model alone foresees", () => {
  it("have their early and likely dates where draws from the pool meet the limit", () => {
    const { units: all, pools } = assessed();
    const { windows, telling, state, xNow } = unit(all, "V-101");
    const pool = wearPoolFor(pools, petrol4, "leak-down", "km");
    const judged = state.cylinders[0]?.measures.find(({ measure }) => measure === "leak-down");
    const limit = judged?.scale.of(judged.limit ?? 0) ?? 0;
    const seed = 41;
    const random = seededRandom(seed);
    const draws = Array.from({ length: 6000 }, () =>
      drawnDays(random, pool, telling.use, { limit, xNow, horizonDays: telling.horizonDays }),
    );
    const within = (date: string) => draws.filter((days) => days <= daysBetween(asOf, date)).length / draws.length;
    const { topEnd: share, bottomEnd: otherShare } = state.cylinders[0]?.diagnosis ?? { topEnd: 0, bottomEnd: 0 };
    for (const [dates, side] of [
      [windows.fromModel.topEnd, share],
      [windows.fromModel.bottomEnd, otherShare],
    ] as const) {
      // What nobody tested is of one class or the other with the chance that any fault is.
      const ofClass = side / (share + otherShare);
      expect(dates.p10, `seed ${seed}`).not.toBeNull();
      for (const [date, chance] of [
        [dates.p10, 0.1],
        [dates.p50, 0.5],
      ] as const) {
        if (date !== null)
          expect(Math.abs(ofClass * within(date) - chance), `${date}, seed ${seed}`).toBeLessThan(0.04);
      }
    }
  });

  it("count the use since an overhaul, and not that of the engine before it", () => {
    const meters = [0, 1, 2, 3, 4, 5].map((i) => meterFact({ date: `2026-0${i + 1}-01`, meter: 690_000 + 1800 * i }));
    const overhaul = repairFact({ date: "2026-01-02", meter: 690_001, scope: "complete" });
    const within = (repairs: readonly RepairFact[]) => {
      const { windows } = unit(assessed({ meterReadings: meters, repairs }).units, "V-101");
      return windows.fromModel.bottomEnd.p10;
    };
    expect((within([]) ?? "9999") < "2028").toBe(true);
    expect((within([overhaul]) ?? "9999") > "2030").toBe(true);
  });

  it("are told with a forecast that is none, and leave the assessment as it is", () => {
    const report = reportUnit(unit(assessed().units, "V-101"));
    expect(report.fromModel?.topEnd.status).toBe("too-few-tests");
    expect(report.assessment.band).toBeNull();
    expect(report.assessment.repairs.topEnd).toMatchObject({ status: "too-few-tests", date: { p10: null, p50: null } });
    expect(report.howSure).toMatch(
      /Going by sister engines alone: (top|bottom)-end repair .*\. Nothing is due by that\.$/,
    );
  });

  it("carry a planned disposal that comes before their likely date", () => {
    const soldOf = (disposalDate: string | null) =>
      unit(
        assessed({
          units: [...units().filter((one) => one.unit !== "V-101"), unitFact({ unit: "V-101", disposalDate })],
        }).units,
        "V-101",
      ).windows.fromModel.topEnd;
    const { p10, p50, soldOn } = soldOf(null);
    expect(p10).not.toBeNull();
    expect(soldOn).toBeUndefined();
    const before = addDays(p50 ?? p10 ?? "", -1);
    expect(soldOf(before)).toMatchObject({ p10, p50, soldOn: before });
    expect(soldOf("2099-12-31").soldOn).toBe(p50 === null ? "2099-12-31" : undefined);
  });

  it("come no later in a unit that works harder", () => {
    const busy = meters.map((fact, i) => meterFact({ unit: "V-102", date: fact.date, meter: 90_000 + 9000 * i }));
    const { units: all } = assessed({ meterReadings: [...meters, ...busy], units: units("V-102") });
    const early = (name: string) => unit(all, name).windows.fromModel.topEnd.p10 ?? "9999";
    expect(early("V-102") < early("V-101")).toBe(true);
  });

  it("are given for too few tests, and not where tests give windows of their own", () => {
    const few = halfYearly(worn(2, 8, 1));
    const { units: all } = assessed({ tests: [...sisters, ...few], meterReadings: [] });
    expect(unit(all, "V-101").windows.fromModel.topEnd.p10).not.toBeNull();
    const own = unit(all, "V-203");
    expect(own.windows.topEnd.status).not.toBe("too-few-tests");
    expect(own.windows.fromModel.topEnd.p10).toBeNull();
    expect(reportUnit(own).fromModel).toBeNull();
  });

  it("are not told where no sister engine was tested: the starting values say nothing of the model", () => {
    const alone = unit(assessed({ tests: [] }).units, "V-101");
    expect(alone.windows.fromModel.topEnd.p10).not.toBeNull();
    expect(reportUnit(alone).fromModel).toBeNull();
  });
});
