import { causeLabel } from "@/lib/cause/words.ts";
import type { CylinderAssessment } from "@/lib/schema/assessment.ts";
import { formatProbability, listWords, unbroken } from "../formats.ts";
import { Sheet } from "../sheet.tsx";
import { repairClassWords } from "./unit-words.ts";

// Below this a cause is named together with the other unlikely ones.
const worthReading = 0.01;

/** Causes of one cylinder's loss of sealing: the chance of each, what speaks for it and what against. */
export function UnitCauses({ of }: { readonly of: CylinderAssessment }) {
  const causes = of.causes.filter((c) => c.probability >= worthReading).sort((a, b) => b.probability - a.probability);
  const unlikely = of.causes.filter((c) => c.probability < worthReading).map((c) => causeLabel(c.cause).toLowerCase());
  return (
    <Sheet
      title={`Causes, cylinder ${of.cylinder}`}
      note="chance of each, and why; a quote is a range until the head is off"
    >
      {causes.length === 0 ? (
        <p>No test of this cylinder speaks for a cause yet.</p>
      ) : (
        <>
          <ul className="unit-causes">
            {causes.map(({ cause, probability, because, against }) => (
              <li key={cause} className="keep-together">
                <p className="unit-cause">
                  <strong>{causeLabel(cause)}</strong> <span className="second">{repairClassWords(cause)}</span>
                  <strong className="unit-share">{formatProbability(probability)}</strong>
                </p>
                <div className="unit-bar" aria-hidden="true">
                  <div className="bar" style={{ width: `${probability * 100}%` }} />
                </div>
                {because.length + against.length > 0 && (
                  <dl className="unit-evidence">
                    {because.map((words) => (
                      <div key={words}>
                        <dt>for</dt>
                        <dd>{unbroken(words)}</dd>
                      </div>
                    ))}
                    {against.map((words) => (
                      <div key={words} data-against="true">
                        <dt>against</dt>
                        <dd>{unbroken(words)}</dd>
                      </div>
                    ))}
                  </dl>
                )}
              </li>
            ))}
          </ul>
          {unlikely.length > 0 && <p className="unit-classes">Under 1 % each: {listWords(unlikely)}.</p>}
          <p className="unit-classes">
            Taken together: top-end <strong>{formatProbability(of.topEnd)}</strong>, bottom-end{" "}
            <strong>{formatProbability(of.bottomEnd)}</strong>, the test itself{" "}
            <strong>{formatProbability(of.testSetUp)}</strong>.
          </p>
        </>
      )}
    </Sheet>
  );
}
