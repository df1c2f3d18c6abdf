import { describe, expect, it } from "vitest";
import { seededRandom } from "../../../demo-data/random.ts";
import { addDays, daysBetween } from "../../../lib/calendar.ts";
import { sinceChangeOfDuty, withoutStanding } from "../../../lib/projection/duty.ts";
import { forecastUse, ownUse, poolUse } from "../../../lib/projection/use.ts";

/** A unit read at uneven spacing: `rate` of the day counted from the first reading, each interval scattered by `scatter`. */
function simulated(seed: number, years: number, rate: (day: number) => number, scatter = 0.15) {
  const random = seededRandom(seed);
  const points = [{ date: "2020-01-01", meter: 0, cumulative: 0 }];
  for (let day = 0; ; ) {
    const days = random.whole(20, 60);
    if (day + days > years * 365) break;
    const own = Math.exp(random.normal(0, scatter));
    let used = 0;
    for (let d = 0; d < days; d++) used += own * rate(day + d);
    day += days;
    const cumulative = (points.at(-1)?.cumulative ?? 0) + used;
    points.push({ date: addDays("2020-01-01", day), meter: cumulative, cumulative });
  }
  return { points, asOf: points.at(-1)?.date ?? "" };
}
const seeds = Array.from({ length: 100 }, (_, i) => i + 1);
const perDayOf = ({ points, asOf }: ReturnType<typeof simulated>) => ownUse(points, asOf)?.perDay ?? 0;
const steady = (perDay: number) => ({ days: 30, rate: perDay });

describe("a change of duty", () => {
  it("leaves what came before it behind, up or down", () => {
    for (const [was, is] of [
      [100, 250],
      [100, 40],
    ] as const) {
      const off = seeds.map((seed) => {
        const unit = simulated(seed, 3, (day) => (day < 2.3 * 365 ? was : is));
        return Math.abs(Math.log(perDayOf(unit) / is));
      });
      expect(off.filter((o) => o < 0.2).length).toBeGreaterThan(95);
    }
  });

  it("is hardly ever seen in a unit that works alike, however it scatters", () => {
    for (const scatter of [0.05, 0.2, 0.5]) {
      const alarms = seeds.filter((seed) => {
        const { points, asOf } = simulated(seed, 3, () => 100, scatter);
        return (ownUse(points, asOf)?.intervals ?? 0) < points.length - 1;
      });
      expect(alarms.length).toBeLessThanOrEqual(4);
    }
  });

  it("is not seen in a unit whose busy and quiet times come in runs, however long it is followed", () => {
    const alarms = (correlation: number, intervals: number) => {
      const random = seededRandom(100 * intervals + 10 * correlation);
      const units = Array.from({ length: 400 }, () => {
        let log = random.normal(0, 0.4);
        return Array.from({ length: intervals }, () => {
          log = correlation * log + random.normal(0, 0.4 * Math.sqrt(1 - correlation ** 2));
          return { days: 60, rate: Math.exp(log) };
        });
      });
      return units.filter((unit) => sinceChangeOfDuty(unit).length < intervals).length / units.length;
    };
    for (const intervals of [8, 16, 40]) {
      expect(alarms(0, intervals)).toBeLessThanOrEqual(0.01);
      expect(alarms(0.3, intervals)).toBeLessThanOrEqual(0.015);
      expect(alarms(0.6, intervals)).toBeLessThanOrEqual(0.04);
    }
  });

  it("is not a quiet season that comes every year, though a change before it cut the history short", () => {
    // Two years by quarters: the last quarter is as it was a year before, which what follows the change does not show.
    const quarters = [130, 300, 130, 200, 60, 50, 300, 200].flatMap((rate) => Array(6).fill({ days: 15.2, rate }));
    expect(sinceChangeOfDuty(quarters)).toHaveLength(12);
  });

  it("needs two intervals after it and a large step", () => {
    const one = [...Array(8).fill(steady(100)), steady(300)];
    expect(sinceChangeOfDuty(one)).toBe(one);
    const small = [...Array(8).fill(steady(100)), ...Array(4).fill(steady(120))];
    expect(sinceChangeOfDuty(small)).toBe(small);
    expect(sinceChangeOfDuty([...Array(8).fill(steady(100)), steady(300), steady(310)])).toHaveLength(2);
  });

  it("of two, the last one counts", () => {
    const twice = [...Array(6).fill(steady(100)), ...Array(6).fill(steady(300)), ...Array(6).fill(steady(60))];
    expect(sinceChangeOfDuty(twice).map(({ rate }) => rate)).toEqual(Array(6).fill(60));
  });

  it("widens the date until there are readings enough after it", () => {
    const pool = poolUse([], "km");
    const spread = (years: number) => {
      const { points, asOf } = simulated(5, years, (day) => (day < 730 ? 100 : 250), 0.3);
      return forecastUse(ownUse(points, asOf), pool, asOf).logSd;
    };
    expect(spread(2.6)).toBeGreaterThan(spread(5));
  });
});

describe("standing", () => {
  it("of one spell is no slower rate", () => {
    const unit = (stands: boolean) => simulated(3, 3, (day) => (stands && day > 500 && day < 800 ? 0 : 100), 0.1);
    expect(perDayOf(unit(true)) / 100).toBeGreaterThan(0.85);
    const { points } = unit(true);
    const last = points.at(-1);
    // Its mean with the spell would be far lower.
    expect((last?.cumulative ?? 0) / daysBetween("2020-01-01", last?.date ?? "")).toBeLessThan(80);
  });

  it("at the end, at the beginning, for a short while or more than once counts as its use", () => {
    const [works, stands] = [steady(100), { days: 120, rate: 0 }];
    for (const kept of [
      [works, works, stands],
      [stands, works, works],
      [works, { days: 20, rate: 0 }, works, works],
      [works, stands, works, stands, works, works, works],
    ])
      expect(withoutStanding(kept)).toBe(kept);
    expect(withoutStanding([works, stands, { days: 60, rate: 1 }, works, works, works])).toEqual(Array(4).fill(works));
  });
});
