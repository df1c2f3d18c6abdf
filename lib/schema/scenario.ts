import { z } from "zod";
import type { IsoDate } from "./facts.ts";
import type { PlanScope } from "./kept-plan.ts";

/** What-ifs: a named change to the fleet's budget, and what came of it. Amounts are whole minor units of the currency. */

const percent = z.number().min(-90).max(300);

export const scenarioChangeSchema = z.discriminatedUnion("kind", [
  /** All bookings that are not pinned so many months later. */
  z.strictObject({ kind: z.literal("postpone"), months: z.number().int().min(1).max(24) }),
  /** So much less of all that a workshop has. */
  z.strictObject({
    kind: z.literal("capacity"),
    percent: z.number().positive().max(100),
    /** null: at all depots. */
    depot: z.string().nullable(),
  }),
  /** A limit of an engine model moved: leakage in points of per cent, minimum compression in kPa. */
  z.strictObject({
    kind: z.literal("limit"),
    engineModel: z.string(),
    of: z.enum(["leak-down", "compression"]),
    by: z.number().min(-1_000).max(1_000),
  }),
  /** All units run so much more or less. */
  z.strictObject({ kind: z.literal("use"), percent }),
  /** No top end is repaired before it is past its limit, but for pinned bookings and those of limits that are met already. */
  z.strictObject({ kind: z.literal("run-to-limit") }),
  /** Spare engines bought, at a price each in whole units of the currency, paid in a month ("2026-10"). */
  z.strictObject({
    kind: z.literal("exchange"),
    engineModel: z.string(),
    count: z.number().int().min(1).max(100),
    price: z.number().min(0).max(1_000_000_000),
    month: z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/),
  }),
]);
export type ScenarioChange = z.infer<typeof scenarioChangeSchema>;

/** A fiscal year's rest as it is drawn, and what it risks. */
export interface ScenarioYear {
  readonly name: string;
  readonly expected: number;
  readonly p50: number;
  readonly p80: number;
  readonly p95: number;
  readonly unplanned: number;
  readonly downtime: number;
  /** Expected count. */
  readonly failures: number;
}

/** A repair that a scenario puts elsewhere. */
export interface ScenarioMove {
  readonly unit: string;
  /** null: it is not booked in the base; not in the scenario. */
  readonly from: { readonly scope: PlanScope; readonly start: IsoDate } | null;
  readonly to: { readonly scope: PlanScope; readonly start: IsoDate } | null;
  /** Chance that the limit which it cures is met by the week in which it was to begin; null: not booked in the base. */
  readonly pastLimit: number | null;
}

/** A repair that a scenario leaves where it is, though it moves others like it. */
export interface ScenarioStay {
  readonly unit: string;
  readonly scope: PlanScope;
  readonly start: IsoDate;
  readonly why: "pinned" | "past-limit";
}

/** The base with a plan made anew of all that it knew, less the base as it is booked. */
export interface ReplannedBase {
  /** Expected money over all years. */
  readonly expected: number;
  /** Bookings that lie elsewhere. */
  readonly moves: number;
}

export interface ScenarioResult {
  readonly asOf: IsoDate;
  readonly currency: string;
  readonly seed: number;
  readonly draws: number;
  /**
   * The last month that both are drawn for ("2028-11"), where the forecasts of either end before the budget does. null: the budget's
   * last; absent: kept by a version that drew on regardless.
   */
  readonly lastMonth?: string | null;
  /**
   * What planning anew would change of the base by itself; `base` and `moves` are of the base planned anew then. null: the
   * scenario keeps to the base's bookings; absent: kept by a version that took them as they were.
   */
  readonly replanned?: ReplannedBase | null;
  /** By fiscal year, in the same order. */
  readonly base: readonly ScenarioYear[];
  readonly scenario: readonly ScenarioYear[];
  /** Paid for engines, in the scenario's year in which its month lies; 0: nothing. */
  readonly bought: number;
  readonly moves: readonly ScenarioMove[];
  /** By unit; absent: kept by a version that did not tell them. */
  readonly stays?: readonly ScenarioStay[];
}

/** Why a scenario cannot be reckoned. */
export type NoScenario =
  | { readonly code: "unknown-model" | "no-such-limit" | "no-exchange"; readonly engineModel: string }
  | { readonly code: "limit-out-of-range"; readonly engineModel: string; readonly limit: number }
  | { readonly code: "unknown-depot"; readonly depot: string }
  | { readonly code: "month-outside"; readonly month: string };
