import type { Place } from "../lib/schema/words.ts";
import { seaLevelAbsKpa, standardPressureKpa } from "../lib/sealing/atmosphere.ts";
import { leakAreaMm2, leakagePercent, testerInUse } from "../lib/sealing/orifice.ts";
import { type Model, smallOrificeMm } from "./engine-models.ts";
import type { EngineTruth } from "./plan.ts";

/**
 * From what is true of a cylinder to what a perfect instrument would show: leaks are areas that add up, and a tester
 * turns an area into a percentage. The flow functions are the app's own; the app works them the other way.
 */

const usualTester = (model: Model) =>
  testerInUse({
    orificeMm: model.leakDown?.orificeMm ?? smallOrificeMm,
    supplyKpa: model.leakDown?.supplyKpa ?? 550,
    ambientAbsKpa: seaLevelAbsKpa,
  });

/** Leak area of a cylinder, mm2, and the places where so much air escapes that it is heard. */
export function leakOf(
  model: Model,
  truth: EngineTruth,
  { cylinder, years }: { readonly cylinder: number; readonly years: number },
): { readonly areaMm2: number; readonly usualPercent: number; readonly places: readonly Place[] } {
  const tester = usualTester(model);
  const rings = truth.rings[cylinder - 1]?.(years) ?? 0;
  let areaMm2: number = leakAreaMm2(tester, rings);
  const ringsArea = areaMm2;
  const places: Place[] = [];
  for (const fault of truth.faults) {
    if (fault.cylinder !== cylinder) continue;
    const inAll = fault.leakage(years);
    const area = leakAreaMm2(tester, Math.max(inAll, rings)) - ringsArea;
    areaMm2 += area;
    if (inAll - rings >= 2.5) places.push(fault.place);
  }
  if (rings >= 0.75 * (model.leakDown?.watchPercent ?? 10)) places.unshift("crankcase");
  return { areaMm2, usualPercent: leakagePercent(tester, areaMm2), places };
}

export const shownPercent = (
  areaMm2: number,
  tester: { readonly orificeMm: number; readonly supplyKpa: number; readonly altitudeM: number },
): number => leakagePercent(testerInUse({ ...tester, ambientAbsKpa: standardPressureKpa(tester.altitudeM) }), areaMm2);

/** Compression lost at 200 rpm by leakage on the usual tester, %, against 6 %: blunt, and late. Trade practice. */
const lossPoints = [
  [6, 0],
  [10, 3],
  [20, 8],
  [30, 13],
  [40, 17],
  [100, 60],
] as const;

function compressionLost(usualPercent: number): number {
  const next = lossPoints.findIndex(([leakage]) => leakage > usualPercent);
  const [a, b] = [lossPoints[next - 1], lossPoints[next]];
  if (a === undefined || b === undefined) return next === 0 ? 0 : 60;
  return a[1] + ((usualPercent - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
}

/** Gauge pressure, kPa, in the air of the place, cranked at about 200 rpm. */
export function compressionOf(
  newKpa: number,
  truth: EngineTruth,
  at: { readonly cylinder: number; readonly years: number; readonly usualPercent: number; readonly altitudeM: number },
): number {
  const filling = truth.filling[at.cylinder - 1]?.(at.years) ?? 1;
  const air = standardPressureKpa(at.altitudeM) / seaLevelAbsKpa;
  return newKpa * filling * (1 - compressionLost(at.usualPercent) / 100) * air;
}

/** How much oil on the rings raises the pressure, as a share: a little in any cylinder, much past worn rings. */
export const wetRise = (ringsPercent: number): number => 0.015 + 0.0096 * Math.max(0, ringsPercent - 6);
