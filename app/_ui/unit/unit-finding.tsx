import type { SharedStep } from "@/lib/schema/comparison.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { stepQuestion, stepWords } from "../compare/step-words.ts";
import { planAddress } from "../plan/address.ts";
import { PrintButton } from "../print-button.client.tsx";
import { unitSheetAddress, whyAddress } from "../unit-address.ts";
import { GainDetails } from "./gain-details.tsx";
import { UnitCautions } from "./unit-cautions.tsx";

/** The finding in words, what to do next with its cautions, then how sure it is and what it asks. */
export function UnitFinding(props: {
  readonly report: UnitReport;
  readonly steps: readonly SharedStep[];
  readonly f: Formats;
}) {
  const { report, steps, f } = props;
  // A test in doubt is told in the finding itself.
  const told = new Set(report.assessment.inDoubt.map(({ words }) => words));
  const questions = report.assessment.questions.filter((question) => !told.has(question));
  return (
    <div className="unit-finding">
      <h1 className="finding">{f.words(report.finding)}</h1>
      <section aria-labelledby="unit-next" className="unit-to-do">
        <h2 id="unit-next" className="unit-next-title">
          {report.next.length > 1 ? "Next, in this order" : "Next"}
        </h2>
        {report.next.length === 0 ? (
          <p className="second">Nothing to do before the next test.</p>
        ) : (
          <ol className="unit-next">
            {report.next.map((step) => (
              <li key={step.title}>
                <strong>{step.title}</strong>
                <span className="second">{f.words(step.detail)}</span>
                {step.gain !== undefined && <GainDetails gain={step.gain} f={f} />}
              </li>
            ))}
          </ol>
        )}
        <UnitCautions report={report} />
      </section>
      <div className="unit-sure">
        {report.together !== null && <p>{f.words(report.together)}</p>}
        <p className="second">
          <strong>How sure.</strong> {f.words(report.howSure)}
          {report.basis.widths !== undefined && (
            <>
              {" "}
              <AppLink href="/record">How past forecasts turned out</AppLink>
            </>
          )}
        </p>
        {questions.length + steps.length > 0 && (
          <ul className="unit-questions" aria-label="Questions to settle">
            {steps.map((step) => (
              <li key={`${step.of} ${step.name} ${step.measure} ${step.date}`}>
                <strong>Asks you.</strong> {stepWords(f, step)} {stepQuestion(step)}
              </li>
            ))}
            {questions.map((question) => (
              <li key={question}>
                <strong>Asks you.</strong> {f.words(question)}
              </li>
            ))}
          </ul>
        )}
        <p className="no-print unit-buttons">
          {report.assessment.lastTestDate !== null && (
            <AppLink href={whyAddress(report.assessment.unit)} variant="button">
              Why this date
            </AppLink>
          )}
          <AppLink href={planAddress({ unit: report.assessment.unit })} variant="button">
            Can it wait?
          </AppLink>
          <AppLink href={unitSheetAddress(report.assessment.unit)} variant="button">
            One page for the depot
          </AppLink>
          <PrintButton />
        </p>
      </div>
    </div>
  );
}
