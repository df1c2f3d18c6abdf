import type { UpkeepStanding } from "../../_jobs/upkeep.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { LookAgain } from "../look-again.client.tsx";
import { Sheet } from "../sheet.tsx";

interface StandingWords {
  /** The finding of a page that has no budget to show. */
  readonly title: string;
  readonly says: string;
  /** Beside an older budget; empty: it is up to date. */
  readonly beside: string;
  readonly isSoon: boolean;
}

/** How today's budget stands, in words. */
export function budgetStandingWords(standing: UpkeepStanding, when: (instant: Date) => string): StandingWords {
  switch (standing.state) {
    case "current":
      return {
        title: "No unit is known yet, so there is nothing to budget.",
        says: "A budget is drawn from the forecasts of the fleet’s engines and from the plan.",
        beside: "",
        isSoon: false,
      };
    case "making":
      return {
        title: "The budget is being drawn.",
        says: "What may come is drawn many thousand times. The page shows it when it is there.",
        beside: "Facts, prices or the plan have changed since: the budget is being drawn anew.",
        isSoon: true,
      };
    case "waiting": {
      const then = {
        pause: "in a few seconds, once nothing changes",
        "job-ended": "once the work that runs now, such as an import, is done",
        reports: "once every unit is assessed for today, within the hour",
      }[standing.until];
      return {
        title: "The budget is yet to be drawn.",
        says: `It is drawn ${then}. The page shows it when it is there.`,
        beside: `Facts, prices or the plan have changed since: the budget is drawn anew ${then}.`,
        isSoon: true,
      };
    }
    case "failed": {
      const again = `It is tried again from ${when(standing.again)} on, or when something changes.`;
      return {
        title: "The budget could not be drawn.",
        says: `${standing.problem} ${again}`,
        beside: `Facts, prices or the plan have changed since, and the budget could not be drawn anew: this is the last one. ${standing.problem} ${again}`,
        isSoon: false,
      };
    }
  }
}

/** Before there is a budget. */
export function NoBudget(props: {
  readonly standing: UpkeepStanding;
  readonly hasUnits: boolean;
  readonly when: (instant: Date) => string;
}) {
  const { standing, hasUnits, when } = props;
  const { title, says, isSoon } = budgetStandingWords(hasUnits ? standing : { state: "current" }, when);
  return (
    <div className="page">
      {isSoon && <LookAgain />}
      <h1 className="finding">{title}</h1>
      <Sheet label={hasUnits ? "How it stands" : "What is needed"}>
        <EmptyState says={says}>
          <AppLink href={hasUnits ? "/budget" : "/import"} variant="filled">
            {hasUnits ? "Look again" : "Import test results"}
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}
