import type { UnitReport } from "@/lib/schema/report.ts";
import { unbroken } from "../formats.ts";
import { PrintButton } from "./print-button.client.tsx";

/** The finding in words, how sure it is, what it asks, and what to do next. */
export function UnitFinding({ report }: { readonly report: UnitReport }) {
  // A test in doubt is told in the finding itself.
  const told = new Set(report.assessment.inDoubt.map(({ words }) => words));
  const questions = report.assessment.questions.filter((question) => !told.has(question));
  const cautions = report.next.flatMap(({ caution }) => (caution === null ? [] : [caution]));
  return (
    <div className="unit-finding">
      <div className="unit-says">
        <h1 className="finding">{unbroken(report.finding)}</h1>
        <p className="second">
          <strong>How sure.</strong> {unbroken(report.howSure)}
        </p>
        {questions.length > 0 && (
          <ul className="unit-questions" aria-label="Questions to settle">
            {questions.map((question) => (
              <li key={question}>
                <strong>Asks you.</strong> {unbroken(question)}
              </li>
            ))}
          </ul>
        )}
        <p className="no-print">
          <PrintButton />
        </p>
      </div>
      <section aria-labelledby="unit-next">
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
                <span className="second">{unbroken(step.detail)}</span>
              </li>
            ))}
          </ol>
        )}
        {cautions.length > 0 && (
          <p className="caution">
            <strong>Caution.</strong> {cautions.join(" ")} The maker’s manual and local rules go before all of this.
          </p>
        )}
      </section>
    </div>
  );
}
