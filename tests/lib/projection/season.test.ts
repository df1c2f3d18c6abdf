import { describe, expect, it } from "vitest";
import { seededRandom } from "../../../demo-data/random.ts";
import { addDays, addMonths } from "../../../lib/calendar.ts";
import { daysQuantile } from "../../../lib/projection/crossing.ts";
import { type Season, seasonBeside, seasonDays, seasonOf } from "../../../lib/projection/season.ts";
import { cumulativeNow, forecastUse, ownUse, poolUse } from "../../../lib/projection/use.ts";
import { daysFor, distanceBetween, distanceWithin } from "../../../lib/projection/use-ahead.ts";

const summer: Season = [0.5, 1.2, 1.5, 0.8];

/** Units read monthly (or every `months`) from January 2022 on, whose use a day is scattered about that of the season. */
function units(seed: number, count: number, years: number, season: Season | null, { months = 1, scatter = 0.2 } = {}) {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => {
    const perDay = random.between(40, 160);
    const points = [{ date: "2022-01-10", meter: 0, cumulative: 0 }];
    for (let month = months; month <= 12 * years; month += months) {
      const date = addMonths("2022-01-10", month);
      const last = points.at(-1) ?? { date, cumulative: 0 };
      const used = perDay * seasonDays(season, last.date, date) * Math.exp(random.normal(0, scatter));
      points.push({ date, meter: last.cumulative + used, cumulative: last.cumulative + used });
    }
    return { perDay, points };
  });
}
const pointsOf = (some: ReturnType<typeof units>) => some.map(({ points }) => points);

describe("the season of a kind's units", () => {
  it("is found from monthly readings, nearly as strong as it is", () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const found = seasonOf(pointsOf(units(seed, 5, 3, summer)));
      expect(found).not.toBeNull();
      expect((found ?? []).reduce((a, b) => a + b, 0)).toBeCloseTo(4, 6);
      for (const [q, share] of (found ?? []).entries()) expect(Math.abs(share - (summer[q] ?? 0))).toBeLessThan(0.2);
    }
  });

  it("is hardly ever seen where there is none", () => {
    const seen = Array.from({ length: 200 }, (_, i) => seasonOf(pointsOf(units(i + 1, 4, 3, null))));
    expect(seen.filter((s) => s !== null).length).toBeLessThanOrEqual(2);
  });

  /** Thirty units read monthly, each with its own scatter, and what the fleet did in each quarter since January 2022. */
  const fleetOf = (seed: number, quarters: readonly number[]) => {
    const random = seededRandom(seed);
    return Array.from({ length: 30 }, () => {
      const points = [{ date: "2022-01-01", meter: 0, cumulative: 0 }];
      for (let month = 0; month < 3 * quarters.length; month++) {
        const last = points.at(-1)?.cumulative ?? 0;
        const used = 60 * (quarters[Math.floor(month / 3)] ?? 0) * random.between(0.85, 1.15);
        points.push({ date: addMonths("2022-01-01", month + 1), meter: last + used, cumulative: last + used });
      }
      return points;
    });
  };
  const found = (of: (seed: number) => readonly number[], fleets = 60) =>
    Array.from({ length: fleets }, (_, i) => seasonOf(fleetOf(i + 1, of(i + 1)))).filter((s) => s !== null).length;

  it("is not one slump that all units share, nor good and bad quarters of the whole fleet, nor growth", () => {
    expect(found((seed) => Array.from({ length: 12 }, (_, q) => (q === seed % 12 ? 0.3 : 1)))).toBe(0);
    const wandering = (seed: number) => {
      const random = seededRandom(1000 + seed);
      let log = 0;
      return Array.from({ length: 12 }, () => {
        log = 0.5 * log + random.normal(0, 0.3);
        return Math.exp(log);
      });
    };
    expect(found(wandering)).toBeLessThanOrEqual(1);
    expect(found(() => Array.from({ length: 12 }, (_, q) => 1.08 ** q))).toBe(0);
  });

  it("is found beside them", () => {
    const through = (of: (q: number) => number) => Array.from({ length: 12 }, (_, q) => (summer[q % 4] ?? 1) * of(q));
    expect(found(() => through((q) => 1.08 ** q))).toBe(60);
    const growing = seasonOf(
      fleetOf(
        1,
        through((q) => 1.08 ** q),
      ),
    );
    for (const [q, share] of (growing ?? []).entries()) expect(Math.abs(share - (summer[q] ?? 0))).toBeLessThan(0.1);
    const uneven = (seed: number) => {
      const random = seededRandom(seed);
      return through(() => Math.exp(random.normal(0, 0.1)));
    };
    expect(found(uneven)).toBeGreaterThan(45);
  });

  it("needs each quarter in two years, not in two units", () => {
    const one = fleetOf(
      1,
      Array.from({ length: 9 }, (_, q) => summer[q % 4] ?? 1),
    );
    expect(seasonOf(one)).not.toBeNull();
    // Eight quarters of each unit are left, the third of the year in one of the years alone.
    const gap = one.map((points) => points.filter(({ date }) => date < "2023-06-20" || date > "2023-10-10"));
    expect(seasonOf(gap)).toBeNull();
  });

  it("is no change of duty where it is not known", () => {
    const alarms = Array.from({ length: 60 }, (_, i) => units(i + 1, 1, 3, summer, { scatter: 0.1 })[0]).filter(
      (unit) => ownUse(unit?.points ?? [], "2025-01-10")?.changedOn !== null,
    );
    expect(alarms.length).toBeLessThanOrEqual(3);
  });

  it("needs two years of readings, none of them too far apart", () => {
    expect(seasonOf(pointsOf(units(1, 8, 1.5, summer)))).toBeNull();
    expect(seasonOf(pointsOf(units(1, 8, 4, summer, { months: 6 })))).toBeNull();
    expect(seasonOf([])).toBeNull();
  });
});

describe("the season of a depot", () => {
  const winter: Season = [1.3, 0.85, 0.7, 1.15];
  /** Three units at each of four depots, read monthly, of which the first has a season of its own; else all the same. */
  const depotsOf = (seed: number, first: Season, years = 3) =>
    [first, summer, summer, summer].map((season, i) => pointsOf(units(10 * seed + i, 3, years, season)));
  const besideIn = (depots: readonly ReturnType<typeof pointsOf>[], i: number) =>
    seasonBeside(depots[i] ?? [], depots.filter((_, j) => j !== i).flat(), depots.length);

  it("is found where it parts from the others', close to what it is", () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const found = besideIn(depotsOf(seed, winter), 0);
      expect(found).not.toBeNull();
      expect((found ?? []).reduce((a, b) => a + b, 0)).toBeCloseTo(4, 6);
      for (const [q, share] of (found ?? []).entries()) expect(Math.abs(share - (winter[q] ?? 0))).toBeLessThan(0.2);
    }
  });

  it("is hardly ever seen where all depots go alike", () => {
    const seen = Array.from({ length: 50 }, (_, seed) => {
      const depots = depotsOf(seed + 1, summer);
      return depots.map((_, i) => besideIn(depots, i));
    }).flat();
    expect(seen).toHaveLength(200);
    expect(seen.filter((season) => season !== null).length).toBeLessThanOrEqual(2);
  });

  it("is no slump or growth that the whole fleet shares, however much it looks like a season", () => {
    const slump = (depot: number) => {
      const random = seededRandom(depot);
      return [1, 2, 3].map(() => {
        let cumulative = 0;
        return Array.from({ length: 37 }, (_, month) => {
          const date = addMonths("2022-01-01", month);
          if (month > 0) cumulative += 60 * (month % 12 < 3 ? 0.3 : 1) * 1.02 ** month * random.between(0.85, 1.15);
          return { date, meter: cumulative, cumulative };
        });
      });
    };
    expect(seasonOf(slump(1))).not.toBeNull();
    expect(seasonBeside(slump(1), slump(2), 2)).toBeNull();
  });

  it("needs two years of both sides in the same quarters", () => {
    const [own = [], ...others] = depotsOf(1, winter);
    expect(seasonBeside(own, [], 1)).toBeNull();
    expect(seasonBeside([], others.flat(), 1)).toBeNull();
    const earlier = others.flat().map((points) => points.map((p) => ({ ...p, date: addMonths(p.date, -120) })));
    expect(seasonBeside(own, earlier, 4)).toBeNull();
    expect(besideIn(depotsOf(1, winter, 1.5), 0)).toBeNull();
  });
});

describe("use by season", () => {
  const asOf = "2026-01-01";
  const use = { perDay: 100, logSd: 0.1, intervals: 5, season: { from: asOf, quarters: summer } };

  it("is told back: the days that so much use takes, ahead and back", () => {
    for (let day = -500; day <= 1500; day += 7) {
      const distance = day >= 0 ? distanceWithin(use, day) : -distanceBetween(use, addDays(asOf, day), asOf);
      expect(daysFor(use, distance)).toBeCloseTo(day, 6);
    }
    expect(daysFor({ ...use, season: null }, 250)).toBe(2.5);
    expect(daysFor({ ...use, perDay: 0 }, 250)).toBe(Number.POSITIVE_INFINITY);
    expect(daysFor({ ...use, perDay: 1e-9 }, 250)).toBeGreaterThan(36_500);
  });

  it("adds up day by day, over a year to the mean", () => {
    let sum = 0;
    for (let day = 0; day < 500; day++) {
      expect(distanceWithin(use, day)).toBeCloseTo(sum, 6);
      sum += 100 * (summer[Math.floor((Number(addDays(asOf, day).slice(5, 7)) - 1) / 3)] ?? 0);
    }
    expect(distanceWithin(use, 365) / 36_500).toBeCloseTo(1, 1);
    expect(distanceBetween(use, "2026-06-01", "2026-06-01")).toBe(0);
  });

  it("moves a date out of the quiet quarter, and carries the meter forward by it", () => {
    const ahead = Float64Array.from([0, 5999, 6000, 60_000]);
    const distribution = { ahead, probability: Float64Array.from([0, 0, 1, 1]) };
    const sure = { ...use, logSd: 0 };
    const flat = daysQuantile(distribution, { ...sure, season: null }, 0.5, 1000) ?? 0;
    const seasonal = daysQuantile(distribution, sure, 0.5, 1000) ?? 0;
    expect(flat).toBe(60);
    // 90 days at 50 give 4,500, then 1,500 at 120.
    expect(seasonal).toBe(103);
    expect(cumulativeNow([{ date: asOf, meter: 10, cumulative: 10 }], use, "2026-04-01")).toBeCloseTo(10 + 4500, 6);
  });

  it("of a unit read in its busy half alone is not taken for its whole year", () => {
    const [unit] = units(9, 1, 4, summer, { scatter: 0.02 });
    const busy = (unit?.points ?? []).filter(({ date }) => date >= "2025-04-01" && date <= "2025-09-30");
    const told = (season: Season | null) =>
      forecastUse(ownUse(busy, "2025-09-30", season), { ...poolUse([], "km"), season }, "2025-09-30").perDay;
    const truth = unit?.perDay ?? 1;
    expect(told(null) / truth).toBeGreaterThan(1.25);
    expect(told(summer) / truth).toBeCloseTo(1, 1);
  });
});
