import { expect, test } from "vitest";
import { wholeUnitReason } from "@/lib/assessment/whole-unit.ts";
import { unitFact } from "../sealing/facts.ts";
import { assessedUnit, leakDown, settings } from "./made-up-fleet.ts";

/** Four cylinders that wear alike and scatter: each may be the first to meet its limit. */
const tests = [
  [10, 9, 11, 10],
  [12, 13, 11, 12],
  [14, 15, 16, 14],
  [16, 15, 17, 16],
  [18, 17, 17, 18],
].map((values, i) =>
  leakDown(`${2024 + Math.floor(i / 2)}-${i % 2 === 0 ? "06" : "12"}-01`, 60_000 + 9000 * i, values),
);

test("a unit likelier to need a repair than each of its cylinders says so beside its band, and one with a plan does not", () => {
  const units = [unitFact({ engineModel: "petrol-4-a" })];
  const bandsWith = (planProbability: number) =>
    assessedUnit({ units, tests }, { settings: { ...settings, planProbability } }).assessment;
  const { cylinders, repairs } = bandsWith(1);
  const single = Math.max(...cylinders.map((c) => c.measures[0]?.crossing?.probabilityWithinYear ?? Number.NaN));
  const together = repairs.bottomEnd.probabilityWithinYear ?? 0;
  expect(together).toBeGreaterThan(1.1 * single);
  const whole = bandsWith((single + together) / 2);
  expect(whole.band).toBe("watch");
  expect(whole.asAWhole).toEqual({ repair: "bottomEnd", months: 12, probability: together });
  expect(whole.reason).toMatch(
    /of all cylinders together: chance of a bottom-end repair within 12 months \d+ %, but of none by itself \d+ %, from which on it is to plan$/,
  );
  // The same chance, and a cylinder that meets the share by itself.
  const planned = bandsWith(0.9 * single);
  expect(planned.band).toBe("plan");
  expect(planned.asAWhole).toBeNull();
  expect(bandsWith(1).asAWhole).toBeNull();
});

test("nothing is told of a unit that is as likely as its cylinders", () =>
  expect(wholeUnitReason(null, { planProbability: 0.3 })).toBeNull());
