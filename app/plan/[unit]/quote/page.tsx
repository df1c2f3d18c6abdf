import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { unitPaper } from "@/app/_jobs/plan-papers.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { jobCardAddress, quoteAddress } from "@/app/_ui/plan-papers/address.ts";
import { NoPlan } from "@/app/_ui/plan-papers/no-plan.tsx";
import { NotBooked } from "@/app/_ui/plan-papers/not-booked.tsx";
import { PaperPage } from "@/app/_ui/plan-papers/paper-parts.tsx";
import { weekWords } from "@/app/_ui/plan-papers/paper-words.ts";
import { Quote } from "@/app/_ui/plan-papers/quote.tsx";
import { quoteCases } from "@/app/_ui/plan-papers/quote-cases.ts";
import { typedNames } from "@/app/_ui/unit/typed-names.ts";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { planScopeWords } from "@/lib/plan/scope-words.ts";
import "@/app/_ui/test-sheet/paper.css";
import "@/app/_ui/plan-papers/papers.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: `${nameInAddress((await params).unit) ?? ""}, quote` };
}

/** What a booked repair may cost, as a range, on one page. */
export default async function QuotePage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  if (unit === null) notFound();
  const store = await appStore();
  const { scope } = await searchParams;
  const paper = await unitPaper(store, unit, { now: new Date(), scope });
  const title = `Quote for ${unit}`;
  if (paper.state === "unknown-unit") notFound();
  if (paper.state === "no-plan") return <NoPlan store={store} paper={title} />;
  if (paper.state === "not-booked") return <NotBooked paper={title} of={paper} />;
  const { plan, report, booking, others } = paper;
  const f = (await viewerFormats()).knowing(typedNames(report));
  const cases = quoteCases(booking, report.model, plan.row);
  return (
    <PaperPage
      unit={unit}
      title={`${title}: ${planScopeWords[booking.scope]} in ${weekWords(f, booking.start)}`}
      others={others}
      addressOf={quoteAddress}
      beside={<AppLink href={jobCardAddress(unit, booking.scope)}>Job card</AppLink>}
      f={f}
    >
      <Quote report={report} booking={booking} cases={cases} plan={plan} f={f} />
    </PaperPage>
  );
}
