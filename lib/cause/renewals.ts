import { madeAfter } from "../condition/series.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { EngineHistory, EngineRepair, SealedTest } from "../sealing/types.ts";
import { causeBit, causesOfClass } from "./words.ts";

/** What one repair made new in a cylinder, as a set of causes that evidence from before it can no longer speak for. */
export interface Renewal {
  readonly date: IsoDate;
  readonly x: number;
  readonly causes: number;
}

const topEnd = causesOfClass("top-end");
const bottomEnd = causesOfClass("bottom-end");
const gasket = causeBit("head-gasket");
const crack = causeBit("cracked-head-or-block");

/**
 * The causes that a repair made new (contract, section 3). A top-end repair renews valves, gasket and timing; a
 * bottom-end repair rings, piston, bore and the gasket, and valves only where they were found at fault (in that cylinder,
 * where it was recorded by cylinder); an adjustment nothing. Whoever had the head off would have seen a crack, so either class settles that too. At a swap the history
 * follows the engine, so there is nothing to renew in it.
 */
function renewedCauses(repair: Pick<EngineRepair, "scope" | "found" | "findings">, cylinder: number): number {
  switch (repair.scope) {
    case "complete":
      return topEnd | bottomEnd;
    case "top-end":
      return topEnd;
    case "bottom-end": {
      const { findings } = repair;
      const its = findings.length === 0 ? repair.found : (findings.find((f) => f.cylinder === cylinder)?.causes ?? []);
      const found = its.reduce((set, cause) => set | causeBit(cause), 0);
      return bottomEnd | gasket | crack | (found & topEnd);
    }
    case "adjustment":
    case "engine-swap":
      return 0;
  }
}

/** The renewing repairs of each cylinder up to the as-of date, ascending; index 0 is cylinder 1. */
export function renewalsByCylinder(history: EngineHistory, asOf: IsoDate): readonly (readonly Renewal[])[] {
  const renewals: Renewal[][] = Array.from({ length: history.model.cylinders }, () => []);
  for (const repair of history.repairs) {
    if (repair.date > asOf) continue;
    for (const cylinder of repair.cylinders) {
      const causes = renewedCauses(repair, cylinder);
      if (causes !== 0) renewals[cylinder - 1]?.push({ date: repair.date, x: repair.x, causes });
    }
  }
  return renewals;
}

const causesOf = (renewals: readonly Renewal[], since: (renewal: Renewal) => boolean): number =>
  renewals.reduce((causes, renewal) => (since(renewal) ? causes | renewal.causes : causes), 0);

/** The causes renewed after a test, by the same rule as its readings are put in the lives of their cylinders. */
export const renewedSinceTest = (renewals: readonly Renewal[], test: SealedTest): number =>
  causesOf(renewals, (renewal) => !madeAfter(test, renewal));

/** The causes renewed on a day or later: what was looked at on the day of a repair is what led to it. */
export const renewedSinceDay = (renewals: readonly Renewal[], date: IsoDate): number =>
  causesOf(renewals, (renewal) => date <= renewal.date);
