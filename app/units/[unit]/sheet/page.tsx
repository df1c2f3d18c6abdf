import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { DepotSheet } from "@/app/_ui/depot-sheet/depot-sheet.tsx";
import { chooseFrom } from "@/app/_ui/unit/choice.ts";
import { typedNames } from "@/app/_ui/unit/typed-names.ts";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { notesOf } from "@/db/notes.ts";
import "@/app/_ui/unit/unit.css";
import "@/app/_ui/depot-sheet/depot-sheet.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `${(await params).unit}, one page` };
}

/** One page of A4 about a unit, for the depot. */
export default async function UnitSheetPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  const store = await appStore();
  const report = unit === null ? null : await unitReport(store, unit);
  if (unit === null || report === null) notFound();
  const [notes, f, search] = await Promise.all([notesOf(store, unit), viewerFormats(), searchParams]);
  const standing = notes.filter((note) => note.withdrawnAt === null);
  return (
    <DepotSheet
      report={report}
      choice={chooseFrom(report, search)}
      notes={standing}
      f={f.knowing(typedNames(report))}
    />
  );
}
