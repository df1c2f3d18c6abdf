import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { explainUnitNow } from "@/app/_jobs/explain-unit.ts";
import type { AddressParts } from "@/app/_ui/compare/address.ts";
import { notUnderstoodWords } from "@/app/_ui/not-understood.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { readWhyAddress, understoodOfWhy } from "@/app/_ui/why/address.ts";
import { WhyView } from "@/app/_ui/why/why-view.tsx";
import { notAskedWords } from "@/app/_ui/why/why-words.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import "@/app/_ui/unit/unit.css";
import "@/app/_ui/why/why.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<AddressParts>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `${(await params).unit}, why this date` };
}

/** Why a unit's date is what it is. Reckoned when it is asked for: the unit's own page stays quick. */
export default async function WhyPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  const store = await appStore();
  const report = unit === null ? null : await unitReport(store, unit);
  if (unit === null || report === null) notFound();
  const asked = await searchParams;
  const { cylinders } = report.model;
  const wanted = readWhyAddress(asked, cylinders);
  const [explanation, f] = await Promise.all([explainUnitNow(store, report, wanted), viewerFormats()]);
  const missed = explanation?.state === "explained" ? notAskedWords(explanation, wanted) : null;
  const says = notUnderstoodWords(asked, understoodOfWhy(cylinders), "what decides the unit’s date is shown");
  return <WhyView report={report} explanation={explanation} notUnderstood={says ?? missed} f={f} />;
}
