import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { asOfDate, lastDateTaken } from "@/app/_jobs/as-of.ts";
import { KnownNames } from "@/app/_ui/formats.client.tsx";
import { Later } from "@/app/_ui/later.tsx";
import { toldSteps } from "@/app/_ui/recording/told-steps.ts";
import { withdrawnTests } from "@/app/_ui/recording/withdrawn.ts";
import { chooseFrom } from "@/app/_ui/unit/choice.ts";
import { typedNames } from "@/app/_ui/unit/typed-names.ts";
import { UnitView } from "@/app/_ui/unit/unit-view.tsx";
import { WithAndWithout } from "@/app/_ui/unit/with-and-without.tsx";
import { nameInAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { unitReport } from "@/db/assessments.ts";
import { enginesOf } from "@/db/engines.ts";
import { notesOf } from "@/db/notes.ts";
import { photosOf } from "@/db/photos.ts";
import { readSettings } from "@/db/settings.ts";
import { statusHistory } from "@/db/status-history.ts";
import { testHistories } from "@/db/test-history.ts";
import { testerComparisonsKept } from "@/db/unit-courses.ts";
import "@/app/_ui/unit/unit.css";
import "@/app/_ui/unit/trend.css";
import "@/app/_ui/unit/unit-facts.css";
import "@/app/_ui/recording/recording.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

// Next hands the parameter to the page as it stands in the address, but to the title's function decoded.
export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await params).unit };
}

export default async function UnitPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  const store = await appStore();
  const report = unit === null ? null : await unitReport(store, unit);
  if (unit === null || report === null) notFound();
  const its = [...new Set([unit, ...[...report.tests, ...report.repairs].map((one) => one.unit)])];
  const [engines, notes, settings, photos, statuses, comparisons, histories, viewer, f, search] = await Promise.all([
    enginesOf(store, unit),
    notesOf(store, unit),
    readSettings(store),
    photosOf(store, its),
    statusHistory(store, unit),
    testerComparisonsKept(store),
    testHistories(store, its),
    viewerName(),
    viewerFormats(),
    searchParams,
  ]);
  const now = new Date();
  const names = typedNames(report);
  return (
    <KnownNames names={names}>
      <UnitView
        report={report}
        choice={chooseFrom(report, search)}
        allTests={search["tests"] === "all"}
        lead={settings}
        engines={engines}
        notes={{
          notes,
          viewer,
          today: asOfDate(settings, now),
          latest: lastDateTaken(settings, now),
          timeZone: settings.timeZone,
        }}
        photos={photos}
        statuses={statuses}
        withdrawn={withdrawnTests(histories, unit)}
        sharedSteps={comparisons.flatMap(({ steps = [] }) => steps.filter((step) => step.units.includes(unit)))}
        withAndWithout={
          report.doubtfulTests > 0 && (
            <Later meanwhile={null}>
              <WithAndWithout report={report} f={f.knowing(names)} />
            </Later>
          )
        }
        history={toldSteps(histories, f, settings.timeZone)}
        f={f.knowing(names)}
      />
    </KnownNames>
  );
}
