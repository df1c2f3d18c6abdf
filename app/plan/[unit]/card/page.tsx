import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { unitPaper } from "@/app/_jobs/plan-papers.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { jobCardAddress, quoteAddress } from "@/app/_ui/plan-papers/address.ts";
import { JobCard } from "@/app/_ui/plan-papers/job-card.tsx";
import { NoPlan } from "@/app/_ui/plan-papers/no-plan.tsx";
import { NotBooked } from "@/app/_ui/plan-papers/not-booked.tsx";
import { PaperPage } from "@/app/_ui/plan-papers/paper-parts.tsx";
import { weekWords } from "@/app/_ui/plan-papers/paper-words.ts";
import { StripDownCard } from "@/app/_ui/plan-papers/strip-down-card.tsx";
import { typedNames } from "@/app/_ui/unit/typed-names.ts";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { workRange } from "@/lib/plan/amounts.ts";
import { partsDemandOf } from "@/lib/plan/parts-demand.ts";
import { priceGrowthOf } from "@/lib/plan/problem-of.ts";
import { planScopeWords } from "@/lib/plan/scope-words.ts";
import "@/app/_ui/test-sheet/paper.css";
import "@/app/_ui/plan-papers/papers.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: `${nameInAddress((await params).unit) ?? ""}, job card` };
}

/** What the workshop gets with a booked unit, on two sides: why it is in and what to check first; what to record. */
export default async function JobCardPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  if (unit === null) notFound();
  const store = await appStore();
  const { scope } = await searchParams;
  const paper = await unitPaper(store, unit, { now: new Date(), scope });
  const title = `Job card of ${unit}`;
  if (paper.state === "unknown-unit") notFound();
  if (paper.state === "no-plan") return <NoPlan store={store} paper={title} />;
  if (paper.state === "not-booked") return <NotBooked paper={title} of={paper} />;
  const { plan, report, booking, others } = paper;
  const f = (await viewerFormats()).knowing(typedNames(report));
  const { workshop, asOf } = plan.row;
  const { work, start } = booking;
  const prices = priceGrowthOf(workshop, asOf);
  const range = workRange(work, { prices, date: start, spreads: workshop.spreads });
  const demand = partsDemandOf(booking, { asOf: plan.asOf, prices });
  return (
    <PaperPage
      unit={unit}
      title={`${title}: ${planScopeWords[booking.scope]} in ${weekWords(f, booking.start)}`}
      others={others}
      addressOf={jobCardAddress}
      beside={<AppLink href={quoteAddress(unit, booking.scope)}>Quote</AppLink>}
      f={f}
    >
      <JobCard
        report={report}
        booking={booking}
        range={range}
        demand={demand}
        plan={plan}
        asOf={plan.asOf}
        currency={plan.row.plan.currency}
        f={f}
      />
      <StripDownCard report={report} />
    </PaperPage>
  );
}
