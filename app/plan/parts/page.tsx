import type { Metadata } from "next";
import { planForPapers } from "@/app/_jobs/plan-papers.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { DepotChoice } from "@/app/_ui/depot-choice.tsx";
import { NotUnderstood, notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { partsAddress, planAddress } from "@/app/_ui/plan-papers/address.ts";
import { PlanPaperLinks } from "@/app/_ui/plan-papers/links.tsx";
import { NoPlan } from "@/app/_ui/plan-papers/no-plan.tsx";
import { OrdersSheet, PartsWeeksSheet, partsFinding } from "@/app/_ui/plan-papers/parts-sheets.tsx";
import { planOfDepot } from "@/app/_ui/plan-papers/read-tables.ts";
import { PrintButton } from "@/app/_ui/print-button.client.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";

const title = "Parts to order";

export const metadata: Metadata = { title };

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** What the plan's bookings ask for, by the day on which to order and by the week of need. */
export default async function PartsPage({ searchParams }: Props) {
  const store = await appStore();
  const [standing, f, asked] = await Promise.all([planForPapers(store, new Date()), viewerFormats(), searchParams]);
  if (standing === null) return <NoPlan store={store} paper={title} />;
  const depots = standing.row.plan.depots.map((of) => of.depot);
  const isDepot = (name: string) => name === "" || depots.includes(name);
  const says = notUnderstoodWords(asked, { depot: isDepot }, "the parts of all depots are shown");
  const depot = depots.find((name) => name === asked["depot"]) ?? null;
  const { plan, parts } = await planOfDepot(store, standing, depot);
  const told = { f, demand: parts, currency: plan.currency, asOf: standing.asOf };
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href={planAddress}>Plan</AppLink>
      </p>
      <h1 className="finding">
        {title}
        {depot === null ? "" : `, ${depot}`}: {partsFinding(told)}
      </h1>
      <NotUnderstood says={says} />
      <div className="list-controls no-print">
        <DepotChoice action={partsAddress} depot={depot} depots={depots}>
          {null}
        </DepotChoice>
        <PrintButton />
      </div>
      <PlanPaperLinks depots={depots} />
      {parts.length > 0 && (
        <>
          <OrdersSheet {...told} depot={depot} />
          <PartsWeeksSheet {...told} />
        </>
      )}
    </div>
  );
}
