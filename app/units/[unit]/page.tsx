import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { chooseFrom } from "@/app/_ui/unit/choice.ts";
import { UnitView } from "@/app/_ui/unit/unit-view.tsx";
import { unitOfAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { readSettings } from "@/db/settings.ts";
import "@/app/_ui/unit/unit.css";
import "@/app/_ui/unit/trend.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

// Next hands the parameter to the page as it stands in the address, but to the title's function decoded.
export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await params).unit };
}

export default async function UnitPage({ params, searchParams }: Props) {
  const unit = unitOfAddress((await params).unit);
  const store = await appStore();
  const report = unit === null ? null : await unitReport(store, unit);
  if (report === null) notFound();
  const choice = chooseFrom(report, await searchParams);
  return <UnitView report={report} choice={choice} lead={await readSettings(store)} f={await viewerFormats()} />;
}
