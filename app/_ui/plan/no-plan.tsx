import type { UpkeepStanding } from "../../_jobs/upkeep.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { LookAgain } from "../look-again.client.tsx";
import { Sheet } from "../sheet.tsx";
import { madeWhenWords } from "./made-when.ts";

/** Before a first plan was made. `when`: an instant as the viewer reads it. */
export function NoPlan({
  title,
  standing,
  when,
}: {
  /** What there is none of yet: "plan", "budget". */
  readonly title: string;
  readonly standing: UpkeepStanding;
  readonly when: (instant: Date) => string;
}) {
  if (standing.state === "current") {
    return (
      <div className="page">
        <h1 className="finding">No {title} yet: no unit is known.</h1>
        <Sheet label="What is needed">
          <EmptyState says="Import units with their engine models and tests: a plan follows by itself, with the workshops as the settings and the depots tell them.">
            <AppLink href="/import" variant="filled">
              Import test results
            </AppLink>
          </EmptyState>
        </Sheet>
      </div>
    );
  }
  const says = `${madeWhenWords(standing, { made: "made", when })}${standing.state === "failed" ? "" : " The page shows it when it is there."}`;
  return (
    <div className="page">
      {standing.state !== "failed" && <LookAgain />}
      <h1 className="finding">
        {standing.state === "failed" ? `The ${title} could not be made.` : `The ${title} is being made.`}
      </h1>
      <Sheet label="How it stands">
        <EmptyState says={says}>
          <AppLink href={`/${title}`} variant="filled">
            Look again
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}
