import type { Metadata } from "next";
import { planOutcomes } from "@/app/_jobs/plan-papers.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { EmptyState } from "@/app/_ui/empty-state.tsx";
import { NotUnderstood, notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { planAddress } from "@/app/_ui/plan-papers/address.ts";
import { DoneSheet } from "@/app/_ui/plan-papers/done-sheet.tsx";
import { doneFinding } from "@/app/_ui/plan-papers/done-words.ts";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";

export const metadata: Metadata = { title: "Repairs made, beside their forecast" };

/** What booked repairs took, beside what the plan expected of them. */
export default async function DonePage({ searchParams }: { readonly searchParams: Promise<AddressParts> }) {
  const [store, f, asked] = await Promise.all([appStore(), viewerFormats(), searchParams]);
  const outcomes = await planOutcomes(store);
  return (
    <div className="page">
      <p className="no-print">
        <AppLink href={planAddress}>Plan</AppLink>
      </p>
      <h1 className="finding">{doneFinding(f, outcomes)}</h1>
      <NotUnderstood says={notUnderstoodWords(asked, {}, "all repairs made are shown")} />
      {outcomes.length === 0 ? (
        <Sheet label="What is needed">
          <EmptyState says="As soon as a repair is recorded that a plan had booked, its booking closes, and its hours, cost and days off the road stand here beside the forecast.">
            <AppLink href={planAddress} variant="filled">
              To the plan
            </AppLink>
          </EmptyState>
        </Sheet>
      ) : (
        <DoneSheet f={f} outcomes={outcomes} />
      )}
    </div>
  );
}
