import type { PressureUnit } from "../lib/schema/words.ts";
import { fromKpa, gaugeKpa } from "../lib/units.ts";
import { largeOrificeMm, type Model, smallOrificeMm } from "./engine-models.ts";
import type { Depot } from "./plan.ts";

/** A compression gauge: its unit, and how finely it is read. */
interface Gauge {
  readonly instrument: string;
  readonly unit: PressureUnit;
  readonly step: number;
}

const shortNames: Readonly<Record<Depot, string>> = { Lowmarsh: "LM", Midfell: "MF", Highcol: "HC" };

export function gaugeFor(depot: Depot, model: Model): Gauge {
  const short = shortNames[depot];
  if (model.fuel === "diesel") {
    return depot === "Highcol"
      ? { instrument: `gauge ${short}-2`, unit: "psi", step: 5 }
      : { instrument: `gauge ${short}-2`, unit: "bar", step: 0.2 };
  }
  return depot === "Highcol"
    ? { instrument: `gauge ${short}-1`, unit: "psi", step: 1 }
    : { instrument: `gauge ${short}-1`, unit: "kPa", step: 5 };
}

export interface LeakTester {
  readonly instrument: string;
  readonly orificeMm: number;
  readonly orificeNoted: boolean;
}

export function testerFor(depot: Depot, model: Model): LeakTester {
  const large = model.leakDown?.orificeMm === largeOrificeMm;
  return {
    instrument: `tester ${shortNames[depot]}-${large ? 5 : 4}`,
    orificeMm: large ? largeOrificeMm : smallOrificeMm,
    orificeNoted: true,
  };
}

/** A pressure as the gauge is read: to its step, without the noise of binary fractions. */
export function readGauge(kpa: number, { unit, step }: Pick<Gauge, "unit" | "step">): number {
  return Number((Math.round(fromKpa(gaugeKpa(kpa), unit) / step) * step).toFixed(2));
}

const testers: Readonly<Record<Depot, readonly string[]>> = {
  Lowmarsh: ["K. Arden", "J. Brook", "S. Coley", "T. Dunmore"],
  Midfell: ["P. Eskdale", "W. Farrow"],
  Highcol: ["R. Garth", "L. Holm"],
};

export const peopleAt = (depot: Depot): readonly string[] => testers[depot];
