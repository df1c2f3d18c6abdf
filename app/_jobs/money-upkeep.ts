import { budgetOfToday } from "../../db/budgets.ts";
import type { Store } from "../../db/store.ts";
import { dropOutdated } from "./bridge-of.ts";
import { budgetAnew, budgetDue, programName } from "./budget-anew.ts";
import { whatIsLeft } from "./reassess-day.ts";
import { askFor, type Kept, keepUp, makeIfDue, standingOfKept, type UpkeepStanding } from "./upkeep.ts";
import { inWorker } from "./worker/in-worker.ts";
import type { RunTask } from "./worker/tasks.ts";

/**
 * Today's budget, and with it a plan that nobody has a hand in; any other plan is made when a person asks. Neither is made from
 * reports that are of yesterday, or behind the facts.
 */
const money = (clock: () => Date, run: RunTask = inWorker()): Kept => ({
  kind: "budget",
  title: "The budget",
  due: (store) => budgetDue(store, clock()),
  isReady: async (store) => {
    const { isBehind, isOtherDay } = await whatIsLeft(store, clock());
    return !isBehind && !isOtherDay;
  },
  make: async (store, now, control) => {
    const isDrawn = await budgetAnew(store, { by: programName, now }, control, run);
    const today = isDrawn ? await budgetOfToday(store) : null;
    if (today !== null) dropOutdated(store, today.id);
    return isDrawn;
  },
});

/** Keeps today's budget up to date for as long as this process runs. Returns at once. */
export const keepMoneyCurrent = (store: Store, clock: () => Date): void => keepUp(money(clock), store, clock);

/** One look: starts the job that draws the budget where it is time to, and gives its id; null: it is not time. */
export const makeMoneyIfDue = (store: Store, clock: () => Date, run?: RunTask): Promise<string | null> =>
  makeIfDue(money(clock, run), store, clock);

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
