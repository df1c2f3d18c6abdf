import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { lastDateTaken } from "@/app/_jobs/as-of.ts";
import { seenOf, testOf } from "@/app/_jobs/record-facts.ts";
import { AppLink } from "@/app/_ui/app-link.client.tsx";
import { CsvLink } from "@/app/_ui/csv-link.tsx";
import { NameGate } from "@/app/_ui/name-gate.tsx";
import { testFileAddress } from "@/app/_ui/recording/address.ts";
import { askedTestSchema } from "@/app/_ui/recording/asked-test.ts";
import { CorrectionDesk } from "@/app/_ui/recording/correction-desk.client.tsx";
import { JudgementDesk } from "@/app/_ui/recording/test-desks.client.tsx";
import { TestHistory } from "@/app/_ui/recording/test-history.tsx";
import { WithdrawnNote } from "@/app/_ui/recording/withdrawn-tests.tsx";
import { SavedNote } from "@/app/_ui/saved-note.tsx";
import { Sheet } from "@/app/_ui/sheet.tsx";
import { measureTitles } from "@/app/_ui/unit/unit-words.ts";
import { nameInAddress, unitAddress } from "@/app/_ui/unit-address.ts";
import { viewerFormats, viewerName } from "@/app/_ui/viewer.ts";
import { appStore } from "@/db/app-store.ts";
import { knowsUnit, unitReport } from "@/db/assessments.ts";
import { readSettings } from "@/db/settings.ts";
import { testHistories, testHistoryKey } from "@/db/test-history.ts";
import { withdrawnBy } from "@/lib/withdrawn.ts";
import "@/app/_ui/styles/house.css";
import "@/app/_ui/recording/recording.css";

interface Props {
  readonly params: Promise<{ readonly unit: string }>;
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>;
}

export async function generateMetadata({ params }: Pick<Props, "params">): Promise<Metadata> {
  return { title: `${(await params).unit}, a test` };
}

/** One test: its history, and the forms by which a person corrects it, sets it aside or accepts it. */
export default async function TestPage({ params, searchParams }: Props) {
  const unit = nameInAddress((await params).unit);
  const store = await appStore();
  if (unit === null || !(await knowsUnit(store, unit))) notFound();
  const search = await searchParams;
  const asked = askedTestSchema.safeParse(search);
  const standing = asked.success ? await testOf(store, { unit, ...asked.data }) : null;
  const f = await viewerFormats();
  const back = (
    <p className="no-print">
      <AppLink href={`${unitAddress(unit)}#tests`}>Back to the tests of {unit}</AppLink>
    </p>
  );
  if (standing === null) {
    return (
      <div className="page">
        {back}
        <h1 className="finding">This test of {unit} is not on file</h1>
        <p>It may have been undone since. The tests that are on file stand on the page of the unit.</p>
      </div>
    );
  }
  const { test, judged } = standing;
  const counts = withdrawnBy(judged).left(test);
  const [settings, viewer, histories, report] = await Promise.all([
    readSettings(store),
    viewerName(),
    testHistories(store, [unit]),
    unitReport(store, unit),
  ]);
  const title = `${measureTitles[test.test]} of ${unit}, ${f.date(test.date)}`;
  const line = report?.tests.find(
    (one) =>
      one.unit === unit &&
      one.date === test.date &&
      one.measure === test.test &&
      one.attempt === test.attempt &&
      one.instrument === test.instrument,
  );
  const events = histories.get(testHistoryKey(test)) ?? [];
  const { kept } = search;
  const keptImport = typeof kept === "string" ? kept : null;
  const desk = { test, seen: seenOf(test) };
  const cylinder = test.readings.map((reading) => String(reading.cylinder)).find((one) => one === search["cylinder"]);
  return (
    <div className="page">
      {back}
      <h1 className="finding">{title}</h1>
      <p className="second">
        {test.instrument ?? "Tester not recorded"}, {test.testedBy ?? "by whom not recorded"}
        {test.attempt > 1 && `, attempt ${test.attempt}`}
      </p>
      {keptImport !== null && <SavedNote store={store} importId={keptImport} f={f} />}
      {line !== undefined && line.doubts.length > 0 && <p className="caution">{f.words(line.doubts.join("; "))}</p>}
      <WithdrawnNote events={events} f={f} timeZone={settings.timeZone} />
      <Sheet title="Judge it" note="Nothing is deleted: what is set aside stays, and is shown with the reason.">
        <NameGate name={viewer}>
          <JudgementDesk key={keptImport} {...desk} cylinder={cylinder ?? ""} />
        </NameGate>
      </Sheet>
      {counts !== null && report !== null && (
        <Sheet title="Correct it" note="What stands now and what you make of it both stay in the history below.">
          <NameGate name={viewer}>
            <CorrectionDesk
              key={desk.seen}
              {...desk}
              test={counts}
              cylinders={report.model.cylinders}
              latest={lastDateTaken(settings, new Date())}
            />
          </NameGate>
        </Sheet>
      )}
      <Sheet
        title="History"
        note="Who told it, corrected it and judged it, when and why, newest first."
        controls={events.length > 0 && <CsvLink href={testFileAddress(unit, test)} of={`history of ${title}`} />}
        long
      >
        <TestHistory f={f} name={`History of the test: ${title}`} events={events} timeZone={settings.timeZone} />
      </Sheet>
    </div>
  );
}
