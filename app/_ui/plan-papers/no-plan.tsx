import { unitNames } from "../../../db/assessments.ts";
import { readSettings } from "../../../db/settings.ts";
import type { Store } from "../../../db/store.ts";
import { askForMoney, moneyStanding } from "../../_jobs/money-upkeep.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { LookAgain } from "../look-again.client.tsx";
import { Sheet } from "../sheet.tsx";
import { viewerFormats } from "../viewer.ts";
import { whenWords } from "../when.ts";
import { planAddress } from "./address.ts";
import { standingWords } from "./standing-words.ts";

/** Stands where a paper would, before a plan was made: asks for the first one, and says how that stands. */
export async function NoPlan({
  store,
  paper,
}: {
  readonly store: Store /** "Job card of V-104" */;
  readonly paper: string;
}) {
  const now = new Date();
  askForMoney(store, now);
  const [units, settings, f, standing] = await Promise.all([
    unitNames(store),
    readSettings(store),
    viewerFormats(),
    moneyStanding(store, now),
  ]);
  const { says, isSoon } = standingWords(standing, (at) => whenWords(f, settings.timeZone, at.toISOString()));
  const isEmpty = units.length === 0;
  return (
    <div className="page">
      {isSoon && !isEmpty && <LookAgain />}
      <h1 className="finding">{paper}: there is no plan yet.</h1>
      <Sheet label="How it stands">
        <EmptyState says={isEmpty ? "No unit is on the books: results come first." : says}>
          <AppLink href={isEmpty ? "/import" : planAddress} variant="filled">
            {isEmpty ? "Import test results" : "To the plan"}
          </AppLink>
        </EmptyState>
      </Sheet>
    </div>
  );
}
