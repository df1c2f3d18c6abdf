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

/** What would be told to wait, if its unit were not sold before: no repair of it is asked for. */
export const soldBefore = (waiting: readonly Waiting[]): readonly (Waiting & Required<Pick<Waiting, "sold">>)[] =>
  waiting.flatMap(({ sold, ...of }) =>
    sold !== undefined && of.chance < worthTelling && sold.ifKept >= worthTelling ? [{ ...of, sold }] : [],
  );
