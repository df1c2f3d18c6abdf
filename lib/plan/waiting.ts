import type { Waiting } from "../schema/kept-plan.ts";
import type { Choice } from "./amended.ts";
import { cures } from "./cures.ts";

/** From this chance on it is told what waits for its next test: that of the band plan. */
export const worthTelling = 0.3;

type Dropped = readonly Pick<Choice, "unit" | "scope">[];

/** Whether somebody dropped the repair that a class of a unit may come to need. */
export const isDropped = (dropped: Dropped, { unit, of }: Pick<Waiting, "unit" | "of">): boolean =>
  dropped.some((one) => one.unit === unit && cures(one.scope).includes(of));

/** What waits and is likely enough to be told, on every page, paper and file alike; what somebody dropped is told as that. */
export const likelyWaiting = (waiting: readonly Waiting[], dropped: Dropped): readonly Waiting[] =>
  waiting.filter((of) => of.chance >= worthTelling && !isDropped(dropped, of));

/** What would be told to wait, if its unit were not sold before: no repair of it is asked for. */
export const soldBefore = (waiting: readonly Waiting[]): readonly (Waiting & Required<Pick<Waiting, "sold">>)[] =>
  waiting.flatMap(({ sold, ...of }) =>
    sold !== undefined && of.chance < worthTelling && sold.ifKept >= worthTelling ? [{ ...of, sold }] : [],
  );
