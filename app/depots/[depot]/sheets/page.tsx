import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { asOfDate } from "@/app/_jobs/as-of.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { depotAddress } from "@/app/_ui/depots/address.ts";
import { PrintButton } from "@/app/_ui/print-button.client.tsx";
import { depotSheetsAddress } from "@/app/_ui/test-sheet/address.ts";
import { dueFinding, weeksAhead } from "@/app/_ui/test-sheet/due-words.ts";
import { PaperSheet } from "@/app/_ui/test-sheet/paper-sheet.tsx";
import { paperTests } from "@/app/_ui/test-sheet/paper-tests.ts";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { depotOverviews } from "@/db/depot-overview.ts";
import { reportsOf, roundUnits } from "@/db/round.ts";
import { readSettings } from "@/db/settings.ts";
import { addDays } from "@/lib/calendar.ts";
import { testSheetFacts } from "@/lib/test-entry/sheet-facts.ts";
import "@/app/_ui/test-sheet/paper.css";

interface Props {
  readonly params: Promise<{ readonly depot: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

/** A page with more sheets is slow to make, and nobody carries them at once. */
const mostSheets = 40;

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: `${(await params).depot}, test sheets` };
}

/** The test sheets for paper of the units that the depot's test round names, now or within some weeks. */
export default async function DepotSheetsPage({ params, searchParams }: Props) {
  const name = nameInAddress((await params).depot);
  const store = await appStore();
  const [depots, settings, f, { weeks: asked }] = await Promise.all([
    depotOverviews(store),
    readSettings(store),
    viewerFormats(),
    searchParams,
  ]);
  const depot = depots.find((each) => each.depot === name);
  if (depot === undefined) notFound();
  const weeks = weeksAhead.find((each) => String(each) === asked) ?? 0;
  const by = addDays(asOfDate(settings, new Date()), 7 * weeks);
  const due = await roundUnits(store, { depot: depot.depot, until: by });
  const total = due.length;
  const reports = await reportsOf(
    store,
    due.slice(0, mostSheets).map(({ unit }) => unit),
  );
  return (
    <div className="page paper-page">
      <nav aria-label="Way back" className="paper-tools no-print">
        <AppLink href={depotAddress(depot.depot)}>{depot.depot}</AppLink>
        {reports.length > 0 && <PrintButton />}
      </nav>
      <h1 className="finding no-print">
        {dueFinding(f, { depot: depot.depot, total, shown: reports.length, by, weeks })}
      </h1>
      <nav aria-label="Due when" className="segments no-print">
        {weeksAhead.map((each) => (
          <AppLink
            key={each}
            variant="bare"
            href={depotSheetsAddress(depot.depot, each)}
            aria-current={each === weeks ? "true" : undefined}
          >
            {each === 0 ? "Due now" : `Within ${f.number(each)} weeks`}
          </AppLink>
        ))}
      </nav>
      {reports.map((report) => (
        <PaperSheet
          key={report.assessment.unit}
          report={report}
          facts={testSheetFacts(report, { altitudeM: depot.altitudeM })}
          tests={paperTests(report.model, undefined)}
          f={f}
        />
      ))}
    </div>
  );
}
