import type { EngineModel } from "../schema/engine-model.ts";
import { seaLevelAbsKpa } from "./atmosphere.ts";
import { leakAreaMm2, leakagePercent, type TesterInUse, testerInUse } from "./orifice.ts";

/** The tester that a model's limits belong to where the model does not say: 0.040 in bore, 550 kPa (80 psi). */
const commonTester = { orificeMm: 1.016, supplyKpa: 550 } as const;

/** The model's usual tester, at sea level of the standard atmosphere: what all its leakage is referred to. */
export const usualTester = (model: EngineModel): TesterInUse =>
  testerInUse({ ...(model.leakDown ?? commonTester), ambientAbsKpa: seaLevelAbsKpa });

/** A leakage made comparable. Reused by the caller's loop, so that a million readings make no garbage. */
export interface ReferredLeakage {
  percent: number;
  areaMm2: number;
  referralSd: number;
}

/** Supplies that agree within this share are one: 550 kPa is 80 psi (551.6) as gauges are marked and read. */
const sameSupplyShare = 0.005;

/** Whether a tester is the usual one, so that its percentage stands as entered. */
const isUsualTester = (tester: TesterInUse, usual: TesterInUse): boolean =>
  tester.orificeMm === usual.orificeMm &&
  Math.abs(tester.supplyKpa - usual.supplyKpa) <= sameSupplyShare * usual.supplyKpa;

/**
 * Standard deviation, as a share of the referred value, that changing testers adds. Engineering judgement, no published
 * figure: leaks are not bores, so a conversion is good to about ±30 %, taken as the middle 90 % of a normal error (1.645
 * standard deviations), where bore areas differ by 1.44 times or more (1.0 against 1.2 mm); in proportion to the
 * logarithm of the area ratio below that. A supply that differs alone moves a reading less: ±5 % for each doubling, at
 * most the same 30 %. Both add as squares.
 */
export function conversionSdShare(tester: TesterInUse, usual: TesterInUse): number {
  const areaLog = Math.abs(Math.log(tester.orificeAreaMm2 / usual.orificeAreaMm2));
  const supplyLog = Math.abs(Math.log(tester.supplyKpa / usual.supplyKpa));
  const byBore = 0.3 * Math.min(1, areaLog / Math.log(1.44));
  const bySupply = Math.min(0.3, (0.05 * supplyLog) / Math.log(2));
  return Math.hypot(byBore, bySupply) / 1.645;
}

/** What all readings of one tester in one place have in common on their way to the usual tester. */
export interface Conversion {
  readonly tester: TesterInUse;
  readonly usual: TesterInUse;
  readonly isUsual: boolean;
  readonly sdShare: number;
}

export function conversion(tester: TesterInUse, usual: TesterInUse): Conversion {
  const isUsual = isUsualTester(tester, usual);
  return { tester, usual, isUsual, sdShare: isUsual ? 0 : conversionSdShare(tester, usual) };
}

/**
 * Refers one leakage reading, %, to the model's usual tester: reading to leak area in the air of the place, leak area to
 * percentage on the usual tester at sea level. This is all that altitude does to a leakage (the flow model reads 20 % at
 * sea level as 19.4 % at 1,850 m); no other correction is made, and an altitude that is not known adds no error worth
 * carrying. On the usual tester at sea level the percentage stands as entered.
 */
export function referLeakage(into: ReferredLeakage, enteredPercent: number, by: Conversion): void {
  const { tester, usual, sdShare } = by;
  into.areaMm2 = leakAreaMm2(tester, enteredPercent);
  into.percent = stands(by) ? enteredPercent : leakagePercent(usual, into.areaMm2);
  into.referralSd = sdShare * into.percent;
}

const stands = ({ tester, isUsual }: Conversion): boolean => isUsual && tester.ambientAbsKpa === seaLevelAbsKpa;

/** Change of the referred leakage for a point of the entered one: carries a small error over (delta method). */
export function referralSlope(enteredPercent: number, by: Conversion): number {
  if (stands(by)) return 1;
  const [low, high] = [Math.max(0, enteredPercent - 0.5), Math.min(100, enteredPercent + 0.5)];
  const referred = (entered: number) => leakagePercent(by.usual, leakAreaMm2(by.tester, entered));
  return (referred(high) - referred(low)) / (high - low);
}
