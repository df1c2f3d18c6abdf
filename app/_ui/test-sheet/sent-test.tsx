import type { ToldStanding } from "@/db/changes.ts";
import type { ImportDetail } from "@/db/imports.ts";
import { causeLabel } from "@/lib/cause/words.ts";
import { changeFrame } from "@/lib/changes/compare.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { AssessmentSettings } from "@/lib/schema/settings.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { sentenceWords } from "@/lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { BandsThenAndNow, movedLines, Why } from "../changes/change-parts.tsx";
import { toldChange } from "../changes/told-change.ts";
import { importAddress } from "../import/address.ts";
import { testAddress as correctAddress } from "../recording/address.ts";
import { Sheet } from "../sheet.tsx";
import { unitAddress } from "../unit-address.ts";
import { testAddress } from "./address.ts";

/** A cause with a smaller share is not worth a line at the engine. */
const worthReading = 0.05;
const causesTold = 3;

/** What a test that was sent says: the unit's assessment as it stands everywhere, and what the test changed of it. */
export function SentTest(props: {
  readonly report: UnitReport;
  readonly sent: ImportDetail;
  /** The unit's assessments as they were issued, newest first. */
  readonly issues: readonly ToldStanding[];
  readonly settings: AssessmentSettings;
  readonly f: Formats;
}) {
  const { report, sent, f } = props;
  const { unit, band, lastTestDate } = report.assessment;
  const isTakenBack = sent.state === "undone";
  return (
    <Sheet title={isTakenBack ? "This test was taken back" : "Sent, and the unit assessed anew"}>
      {isTakenBack ? (
        <p>{sent.undoneBy ?? "Somebody"} took it back. What is told here goes without it.</p>
      ) : (
        <>
          <p className="second">Kept by {sent.by}. If something was entered wrongly:</p>
          <p className="sent-ways">
            {testsOf(report, sent).map((test) => (
              <AppLink
                key={`${test.measure} ${test.attempt} ${test.instrument}`}
                href={correctAddress(unit, { ...test, test: test.measure })}
              >
                Correct it{test.attempt > 1 && `, attempt ${test.attempt}`}
              </AppLink>
            ))}
            <AppLink href={importAddress(sent.id)}>Take it back</AppLink>
          </p>
        </>
      )}
      <p className="sent-band">
        <BandMark band={band} tested={lastTestDate !== null} />
      </p>
      <p className="sent-finding">{f.words(report.finding)}</p>
      <Causes report={report} f={f} />
      {!isTakenBack && <Changed {...props} />}
      {report.next[0] !== undefined && (
        <p>
          <strong>Next: {report.next[0].title}.</strong> {f.words(report.next[0].detail)}
          {report.next[0].caution !== null && ` ${report.next[0].caution}`}
        </p>
      )}
      <div className="tap-foot">
        <AppLink variant="filled" className="tap" href={unitAddress(unit)}>
          Open {unit}
        </AppLink>
        <AppLink variant="button" className="tap" href={testAddress(unit)}>
          Enter another test
        </AppLink>
      </div>
    </Sheet>
  );
}

/** The tests that the sheet came to: a cylinder that was measured again began another attempt. */
function testsOf({ assessment, tests }: UnitReport, { files }: ImportDetail): UnitReport["tests"] {
  const names = new Set(files.map(({ name }) => name));
  return tests
    .filter(({ unit, file }) => unit === assessment.unit && names.has(file))
    .toSorted((a, b) => a.attempt - b.attempt);
}

/** The causes of the cylinder that stands worst. */
function Causes({ report, f }: { readonly report: UnitReport; readonly f: Formats }) {
  const { cylinders, band } = report.assessment;
  const worst = cylinders.filter((each) => each.band === band && band !== null && band !== "sound");
  const [of] = worst.toSorted((a, b) => a.testSetUp - b.testSetUp);
  if (of === undefined) return null;
  const causes = of.causes
    .filter(({ probability }) => probability >= worthReading)
    .toSorted((a, b) => b.probability - a.probability)
    .slice(0, causesTold);
  return (
    <>
      <h3>Causes, cylinder {of.cylinder}</h3>
      <dl className="sent-causes">
        {causes.map(({ cause, probability, because }) => (
          <div key={cause}>
            <dt>
              {causeLabel(cause)} <strong>{f.probability(probability)}</strong>
            </dt>
            {because[0] !== undefined && <dd className="second">{f.words(because[0])}</dd>}
          </div>
        ))}
      </dl>
    </>
  );
}

/** What the assessment that followed the test changed of the one before it. */
function Changed({ report, sent, issues, settings, f }: Parameters<typeof SentTest>[0]) {
  const place = issues.findIndex(({ importId }) => importId === sent.id);
  const now = issues[place];
  if (now === undefined) return null;
  const was = issues[place + 1];
  if (was === undefined) return <p>This is the unit’s first forecast.</p>;
  const frame = changeFrame(settings, now.asOf);
  const { unit, engineModel } = report.assessment;
  const told = toldChange(
    { unit, engineModel, modelName: null, depot: report.depot, was, now, leftBecause: null },
    frame,
  );
  const lines = movedLines(told.change, { ...frame, f });
  return (
    <>
      <h3>What changed</h3>
      <p>
        <BandsThenAndNow {...told} />
      </p>
      {lines.length === 0 ? <p>No window moved.</p> : lines.map((words) => <p key={words}>{sentenceWords(words)}.</p>)}
      <Why why={told.why} f={f} />
    </>
  );
}
