import type { IsoDate } from "./facts.ts";

/** Why a budget moved, as it is kept and shown. Amounts are whole minor units of the currency. */

/**
 * In the order in which they are put in: what was repaired, the days that went by, what sister engines show, what is known anew of
 * each unit, how it stands in the fleet, prices, the plan; then what none of them accounts for by itself: what causes do together that
 * cannot be put in one by one, and another seed.
 */
export const bridgeCauses = [
  "repairs",
  "time",
  "model",
  "tests",
  "limits",
  "use",
  "disposals",
  "prices",
  "plan",
  "unexplained",
] as const;
export type BridgeCause = (typeof bridgeCauses)[number];

/** A fiscal year at one time: what was spent in it so far is in all amounts. */
export interface YearTold {
  readonly spent: number;
  readonly expected: number;
  readonly p50: number;
  readonly p80: number;
}

export interface BridgeUnit {
  readonly unit: string;
  /** By how much its expected money moved. */
  readonly expected: number;
  /** What is known anew, each as a part of a sentence. */
  readonly because: readonly string[];
}

export interface BridgeStep {
  readonly cause: BridgeCause;
  readonly expected: number;
  readonly p50: number;
  readonly p80: number;
  /** What is known anew of the fleet as a whole, each as a part of a sentence. */
  readonly because: readonly string[];
  /** Expected money alone adds up by unit; those that moved it most come first. */
  readonly units: readonly BridgeUnit[];
  /** Expected money that is no single unit's: what rounding moved, or another version of the program draws. */
  readonly rest: number;
}

export interface BudgetBridge {
  readonly year: string;
  readonly from: YearTold & { readonly asOf: IsoDate };
  readonly to: YearTold & { readonly asOf: IsoDate };
  /** One for each cause, in order; their amounts add up to what lies between `from` and `to`. */
  readonly steps: readonly BridgeStep[];
}

/** Why two budgets have no bridge. */
export type NoBridge = "other-currency" | "other-year" | "earlier";
