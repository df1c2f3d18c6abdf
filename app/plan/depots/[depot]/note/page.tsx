import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { droppedNow } from "@/app/_jobs/plan-dropped.ts";
import { planForPapers } from "@/app/_jobs/plan-papers.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { depotAddress } from "@/app/_ui/depots/address.ts";
import { calendarAddress, planAddress } from "@/app/_ui/plan-papers/address.ts";
import { ComingSheet, DroppedSheet, LeftSheet, LoadSheet, noteFinding } from "@/app/_ui/plan-papers/depot-note.tsx";
import { PlanPaperLinks } from "@/app/_ui/plan-papers/links.tsx";
import { NoPlan } from "@/app/_ui/plan-papers/no-plan.tsx";
import { noteWeeks } from "@/app/_ui/plan-papers/note-weeks.ts";
import { planOfDepot } from "@/app/_ui/plan-papers/read-tables.ts";
import { PrintButton } from "@/app/_ui/print-button.client.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { depotOverviews } from "@/db/depot-overview.ts";
import { loadOf } from "@/lib/plan/load.ts";
import { mondayOf } from "@/lib/plan/week-costs.ts";
import "@/app/_ui/test-sheet/paper.css";

interface Props {
  readonly params: Promise<{ readonly depot: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Note to ${nameInAddress((await params).depot) ?? ""}` };
}

/** What a depot is told of the plan: what comes when, what it has for it, what found no room and what waits. */
export default async function DepotNotePage({ params }: Props) {
  const name = nameInAddress((await params).depot);
  const store = await appStore();
  const [depots, standing, f] = await Promise.all([
    depotOverviews(store),
    planForPapers(store, new Date()),
    viewerFormats(),
  ]);
  const depot = depots.find((of) => of.depot === name)?.depot;
  if (depot === undefined) notFound();
  const title = `Note to ${depot}`;
  if (standing === null) return <NoPlan store={store} paper={title} />;
  const { plan, parts } = await planOfDepot(store, standing, depot);
  const weeks = noteWeeks(loadOf(plan, plan), plan.depots[0]?.weeks ?? [], plan.firstMonday);
  return (
    <div className="page">
      <nav aria-label="Way back" className="paper-tools no-print">
        <AppLink href={planAddress}>Plan</AppLink>
        <AppLink href={depotAddress(depot)}>{depot}</AppLink>
        <PrintButton />
      </nav>
      <h1 className="finding">
        {title}: {noteFinding(f, plan)}
      </h1>
      <p className="second">
        As of {f.date(standing.asOf)}, by the plan of {f.date(standing.row.asOf)}. A calendar program can follow{" "}
        {calendarAddress(depot)} at this app’s address.
      </p>
      <PlanPaperLinks depot={depot} />
      {plan.bookings.length > 0 && <ComingSheet f={f} depot={depot} plan={plan} parts={parts} asOf={standing.asOf} />}
      <LoadSheet f={f} depot={depot} weeks={weeks} />
      <LeftSheet f={f} depot={depot} plan={plan} mondayOf={(week) => mondayOf(plan.firstMonday, week)} />
      <DroppedSheet
        f={f}
        depot={depot}
        currency={plan.currency}
        asOf={standing.asOf}
        dropped={(await droppedNow(store, standing)).filter((of) => of.depot === depot)}
      />
      <p className="caution">
        A plan releases nothing to service. The job card of each unit has the cautions; the maker’s manual, local rules
        and trained people decide.
      </p>
    </div>
  );
}
