import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { cache } from "react";
import { chooseFrom } from "@/app/_ui/unit/choice.ts";
import { UnitView } from "@/app/_ui/unit/unit-view.tsx";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import "@/app/_ui/unit/unit.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

// Title and page ask for the same report; it is read once a request.
const keptReport = cache(async (unit: string) => unitReport(await appStore(), unit));

async function unitNumber(params: Props["params"]): Promise<string> {
  const { unit } = await params;
  return decodeURIComponent(unit);
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: await unitNumber(params) };
}

export default async function UnitPage({ params, searchParams }: Props) {
  const report = await keptReport(await unitNumber(params));
  if (report === null) notFound();
  return <UnitView report={report} choice={chooseFrom(report, await searchParams)} />;
}
