import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { PrintButton } from "@/app/_ui/print-button.client.tsx";
import { testAddress } from "@/app/_ui/test-sheet/address.ts";
import { PaperSheet } from "@/app/_ui/test-sheet/paper-sheet.tsx";
import { paperTests } from "@/app/_ui/test-sheet/paper-tests.ts";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { depotOverviews } from "@/db/depot-overview.ts";
import { testSheetFacts } from "@/lib/test-entry/sheet-facts.ts";
import "@/app/_ui/test-sheet/paper.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: `${(await params).unit}, sheet for a test` };
}

/** The test sheet of one unit for paper: last values beside empty fields. */
export default async function PaperPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  const store = await appStore();
  const report = unit === null ? null : await unitReport(store, unit);
  if (unit === null || report === null) notFound();
  const [depots, f, { test }] = await Promise.all([depotOverviews(store), viewerFormats(), searchParams]);
  const altitudeM = depots.find(({ depot }) => depot === report.depot)?.altitudeM ?? null;
  return (
    <div className="page paper-page">
      <nav aria-label="Way back" className="paper-tools no-print">
        <AppLink href={testAddress(unit)}>Enter a test of {unit}</AppLink>
        <PrintButton />
      </nav>
      <h1 className="finding no-print">Sheet for a test of {unit}, to fill in by hand</h1>
      <PaperSheet
        report={report}
        facts={testSheetFacts(report, { altitudeM })}
        tests={paperTests(report.model, test)}
        f={f}
      />
    </div>
  );
}
