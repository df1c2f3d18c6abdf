import { expect, it } from "vitest";
import { assessUnit } from "@/lib/assess.ts";
import { basisOf } from "@/lib/assessment/basis.ts";
import { fitPools } from "@/lib/assessment/pools.ts";
import { addMonths, daysBetween } from "@/lib/calendar.ts";
import { seasonDays } from "@/lib/projection/season.ts";
import { distanceWithin } from "@/lib/projection/use-ahead.ts";
import { reportUnit } from "@/lib/report.ts";
import { roundReasons } from "@/lib/round/reasons.ts";
import { indexFleet } from "@/lib/sealing/seal.ts";
import { factsOf, settings, testOf } from "../track/made-up-fleet.ts";

/** Units that work in summer, read monthly for four years and tested each January; told in January. */
const summer = [0.3, 1.3, 1.7, 0.7] as const;
const asOf = "2026-01-20";
const units = ["S-1", "S-2", "S-3", "S-4"];
const meterAt = (u: number, date: string) => Math.round((4 + 0.2 * u) * seasonDays(summer, "2022-01-10", date));
const facts = factsOf(
  units.flatMap((unit, u) =>
    [2022, 2023, 2024, 2025, 2026].map((year) => {
      const date = `${year}-01-10`;
      return testOf(
        unit,
        date,
        meterAt(u, date),
        [6, 6.5, 5.8, 6.2].map((v) => v + 0.4 * (year - 2022)),
      );
    }),
  ),
  {
    meterReadings: units.flatMap((unit, u) =>
      Array.from({ length: 48 }, (_, month) => {
        const date = addMonths("2022-01-10", month + 1);
        return {
          unit,
          date,
          meter: meterAt(u, date),
          meterReset: false,
          file: "m.csv",
          line: 1,
        };
      }),
    ),
  },
);

it("a test due by the meter falls on the day on which axis and windows say that the meter gets there", () => {
  const index = indexFleet(facts, { asOf });
  const pools = fitPools(index, asOf);
  const own = { ...settings, testIntervalDays: null, testIntervalHours: 300 };
  for (const unit of index.units) {
    const assessed = assessUnit(index, unit, { asOf, settings: own, pools });
    const { use } = assessed.telling;
    expect(use.season?.quarters[0]).toBeLessThan(0.6);
    const report = reportUnit(assessed);
    const due = report.nextTestDue ?? "";
    const ahead = 300 - (assessed.xNow - Math.max(...report.tests.map(({ x }) => x)));
    expect(distanceWithin(use, daysBetween(asOf, due))).toBeLessThanOrEqual(ahead + 1e-6);
    expect(distanceWithin(use, daysBetween(asOf, due) + 1)).toBeGreaterThan(ahead);
    // By the mean use of the year it would be said weeks too early.
    expect(daysBetween(asOf, due) - ahead / use.perDay).toBeGreaterThan(21);
    expect(roundReasons(report, own, due)).toMatchObject([{ kind: "interval", on: due }]);
    expect(roundReasons(report, own, due)[0]).not.toMatchObject({ meter: null });
    expect(basisOf(assessed).season).toHaveLength(4);
  }
});
