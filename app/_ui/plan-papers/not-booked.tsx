import type { UnitPaper } from "../../_jobs/plan-papers.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { viewerFormats } from "../viewer.ts";
import { doneAddress, planAddress } from "./address.ts";
import { notBookedWords } from "./paper-words.ts";

/** Stands where a paper about a unit's booking would: the plan has none of it, and why. */
export async function NotBooked(props: {
  /** "Job card of V-104" */
  readonly paper: string;
  readonly of: Extract<UnitPaper, { state: "not-booked" }>;
}) {
  const { paper, of } = props;
  const f = await viewerFormats();
  const { unit } = of.report.assessment;
  const dropped = of.plan.choices.filter(({ kind }) => kind === "drop");
  const made = of.made?.repair.date ?? null;
  return (
    <div className="page">
      <h1 className="finding">{paper}: no repair is booked.</h1>
      <Sheet label="Why">
        <EmptyState says={notBookedWords(f, unit, { plan: of.plan.row.plan, made, dropped })}>
          <AppLink href={planAddress} variant="filled">
            To the plan
          </AppLink>
          <AppLink href={unitAddress(unit)}>{unit}</AppLink>
          {made !== null && <AppLink href={doneAddress}>What it took, beside the forecast</AppLink>}
        </EmptyState>
      </Sheet>
    </div>
  );
}
