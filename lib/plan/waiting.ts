import type { RepairClass, Waiting } from "../schema/kept-plan.ts";
import type { Choice } from "./amended.ts";
import { cures } from "./cures.ts";

/** From this chance on it is told what waits for its next test: that of the band plan. */
export const worthTelling = 0.3;

/** What waits and is likely enough to be told, on every page, paper and file alike; what somebody dropped is told as that. */
export function likelyWaiting(waiting: readonly Waiting[], dropped: readonly Pick<Choice, "unit" | "scope">[]) {
  const isDropped = (unit: string, of: RepairClass) =>
    dropped.some((one) => one.unit === unit && cures(one.scope).includes(of));
  return waiting.filter(({ unit, of, chance }) => chance >= worthTelling && !isDropped(unit, of));
}
