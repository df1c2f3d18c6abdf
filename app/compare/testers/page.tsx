import type { Metadata } from "next";
import { asFleetPools, keptPools } from "@/app/_jobs/kept-pools.ts";
import { CompareNav } from "@/app/_ui/compare/compare-nav.tsx";
import { NothingToCompare } from "@/app/_ui/compare/nothing-to-compare.tsx";
import { RepeatabilitySheet } from "@/app/_ui/compare/repeatability-sheet.tsx";
import { SharedStepsSheet } from "@/app/_ui/compare/shared-steps-sheet.tsx";
import { testersFinding } from "@/app/_ui/compare/tester-words.ts";
import { TestersSheet } from "@/app/_ui/compare/testers-sheet.tsx";
import { CsvLink } from "@/app/_ui/csv-link.tsx";
import { Terms } from "@/app/_ui/terms.tsx";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { testerComparisonsKept } from "@/db/unit-courses.ts";
import { repeatabilityOf } from "@/lib/assessment/pools.ts";
import { leakDownCaution } from "@/lib/cause/next-steps.ts";
import { judgedMeasures } from "@/lib/schema/words.ts";
import "@/app/_ui/compare/compare.css";

export const metadata: Metadata = { title: "Testers" };

export default async function TestersPage() {
  const [store, f] = await Promise.all([appStore(), viewerFormats()]);
  const [kept, pools] = await Promise.all([testerComparisonsKept(store), keptPools(store)]);
  const comparisons = judgedMeasures.flatMap((measure) => kept.find((c) => c.measure === measure) ?? []);
  if (comparisons.length === 0) return <NothingToCompare here="/compare/testers" />;
  const isOff = comparisons.some(
    ({ testers, hints = [] }) =>
      hints.length > 0 || testers.some(({ verdict }) => verdict === "high" || verdict === "low"),
  );
  return (
    <div className="page">
      <div>
        <CompareNav here="/compare/testers" />
        <h1 className="finding">{testersFinding(f, comparisons)}</h1>
        <Terms of={["tester", "orifice", "supply", "re-test"]} />
        {isOff && (
          <p className="caution compare-caution">
            Measure one calibrated leak, or one cylinder, with both instruments before either is corrected or its
            readings are set aside. {leakDownCaution}
          </p>
        )}
      </div>
      <SharedStepsSheet f={f} steps={comparisons.flatMap(({ steps }) => steps ?? [])} />
      <p className="no-print">
        <CsvLink href="/compare/testers.csv" of="all instruments" />
      </p>
      {comparisons.map((of) => (
        <TestersSheet key={of.measure} f={f} of={of} />
      ))}
      <RepeatabilitySheet f={f} of={repeatabilityOf(asFleetPools(pools).families ?? [])} />
      <p className="second compare-foot">
        Told from engines that were read with more than one instrument between two repairs, less the wear expected
        between the tests; at least four such engines, and no verdict that hangs on one of them. Another depot’s air,
        another hand or a repair that nobody recorded may come with an instrument and look like it.
      </p>
    </div>
  );
}
