import type { Store } from "../../db/store.ts";
import { budgetAnew, budgetDue, programName } from "./budget-anew.ts";
import { askFor, type Kept, keepUp, standingOfKept, type UpkeepStanding } from "./upkeep.ts";

/** Today's budget, and with it a plan that nobody has a hand in; any other plan is made when a person asks. */
const money = (clock: () => Date): Kept => ({
  kind: "budget",
  title: "The budget",
  due: (store) => budgetDue(store, clock()),
  make: (store, now, control) => budgetAnew(store, { by: programName, now }, control),
});

/** Keeps today's budget up to date for as long as this process runs. Returns at once. */
export const keepMoneyCurrent = (store: Store, clock: () => Date): void => keepUp(money(clock), store, clock);

/** Says that somebody looks at the plan or the budget now: what is due is made as soon as nothing has just changed. */
export const askForMoney = (store: Store, now: Date): void =>
  askFor(
    money(() => now),
    store,
    now,
  );

/** How the budget stands, for who looks at it. */
export const moneyStanding = (store: Store, now: Date): Promise<UpkeepStanding> =>
  standingOfKept(
    money(() => now),
    store,
  );
