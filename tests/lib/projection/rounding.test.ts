import { describe, expect, test } from "vitest";
import { levelQuantilesAhead } from "@/lib/projection/fan.ts";
import type { WearObservations } from "@/lib/projection/observations.ts";
import { fitPool } from "@/lib/projection/pool.ts";
import { type WearStart, wearStart } from "@/lib/projection/priors.ts";
import { plainScale } from "@/lib/projection/scale.ts";
import { twoParts } from "@/lib/projection/two-parts.ts";
import { fitEngineWear } from "@/lib/projection/wear-model.ts";
import { seededRandom } from "../../../demo-data/random.ts";
import { petrol4 } from "../cause/engines.ts";
import { observed } from "./engine-given.ts";

const psi = 6.894757;
const coarse = 5 * psi;
const fine = 1;
const varianceOf = (step: number) => step ** 2 / 12;

test("a reading weighs by its own error and by how its gauge was read", () => {
  const rows = Array.from({ length: 4 }, () => [-1200, -1190, -1210, -1200]);
  const rounding = rows.map((row, t) => row.map(() => varianceOf(t % 2 === 0 ? coarse : fine)));
  const error = { readingSd: 5, readingShare: 0 };
  const { common, own } = twoParts(observed(rows, { rounding }), plainScale, error, [null, null, null, null]);
  // Of four cylinders that err alike the mean holds a quarter of the variance, and three quarters are left beside it.
  for (const t of rows.keys()) {
    const whole = 25 + varianceOf(t % 2 === 0 ? coarse : fine);
    expect((common.ownFactor[t] as number) + (common.added[t] as number)).toBeCloseTo(whole / 4, 9);
    for (const part of own) {
      expect((part.ownFactor[t] as number) + (part.added[t] as number)).toBeCloseTo((3 * whole) / 4, 9);
    }
  }
});

interface Simulated {
  readonly key: string;
  readonly observations: WearObservations;
  readonly levels: readonly number[];
}

const ownSd = 6;

/** Engines tested twelve times, 500 h apart, every other one with the coarse gauge; with what their cylinders came to. */
function fleetOf(engines: number, isTold: boolean): readonly Simulated[] {
  const random = seededRandom(23);
  return Array.from({ length: engines }, (_, e) => {
    const step = e % 2 === 0 ? coarse : fine;
    const starts = Array.from({ length: 4 }, () => -1220 + random.normal(0, 20));
    const base = random.normal(0, 30);
    const rate = random.between(0.01, 0.03);
    const worn = (x: number) => starts.map((at) => at + base + rate * x);
    const rows = Array.from({ length: 12 }, (_, t) => {
      const shared = random.normal(0, 8);
      return worn(500 * (t + 1)).map((level) => step * Math.round((level + shared + random.normal(0, ownSd)) / step));
    });
    const rounding = rows.map((row) => row.map(() => (isTold ? varianceOf(step) : 0)));
    return {
      key: `E-${String(e).padStart(3, "0")}`,
      observations: { ...observed(rows, { rounding }), measure: "compression-dry" as const },
      levels: worn(6000),
    };
  });
}

const start: WearStart = wearStart(petrol4, "compression-dry", "h");

function held(fleet: readonly Simulated[]) {
  const fitted = fitPool(start, fleet);
  const pool = {
    engineModel: "x",
    measure: "compression-dry",
    meterUnit: "h",
    fingerprint: "",
    ...fitted,
  } as const;
  const shares = [0, 1].map((gauge) => {
    const inside = fleet.flatMap(({ observations, levels }, e) => {
      if (e % 2 !== gauge) return [];
      return fitEngineWear(observations, pool, 6000, plainScale).cylinders.map(({ branches }, c) => {
        const [low, , , , high] = levelQuantilesAhead(branches, plainScale, 0);
        return (levels[c] as number) >= low && (levels[c] as number) <= high;
      });
    });
    return inside.filter(Boolean).length / inside.length;
  });
  return { readingSd: pool.readingSd, coarse: shares[0] as number, fine: shares[1] as number };
}

describe("a fleet of which half is read to 5 psi and half to 1 kPa", () => {
  const told = held(fleetOf(120, true));
  const untold = held(fleetOf(120, false));

  test("the own error that is fitted is what readings err beside rounding: it counts once", () => {
    expect(told.readingSd).toBeGreaterThan(0.85 * ownSd);
    expect(told.readingSd).toBeLessThan(1.15 * ownSd);
    expect(untold.readingSd).toBeGreaterThan(1.25 * ownSd);
  });

  test("80 % ranges of the level hold it as often with either gauge, and do not where rounding is not reckoned with", () => {
    expect(Math.abs(told.coarse - 0.8)).toBeLessThan(0.06);
    expect(Math.abs(told.fine - 0.8)).toBeLessThan(0.06);
    expect(Math.abs(told.coarse - told.fine)).toBeLessThan(untold.fine - untold.coarse);
  });
});
