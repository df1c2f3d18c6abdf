import type { RecordStanding } from "../../_jobs/track-record-upkeep.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { LookAgain } from "../look-again.client.tsx";
import { Sheet } from "../sheet.tsx";
import { standingWords } from "./standing-words.ts";

/** Before a forecast can be judged, or before the record is made for the first time. */
export function NoRecord(props: { readonly standing: RecordStanding; readonly when: (instant: Date) => string }) {
  const { standing, when } = props;
  const { title, says, isSoon } = standingWords(standing, when);
  const isDue = standing.state !== "current";
  return (
    <div className="page">
      {isSoon && <LookAgain />}
      <h1 className="finding">{title}</h1>
      <Sheet label={isDue ? "How it stands" : "What is needed"}>
        <EmptyState says={says}>
          <AppLink href={isDue ? "/record" : "/import"} variant="filled">
            {isDue ? "Look again" : "Import test results"}
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}
