import { causeLabel, togetherWords } from "@/lib/cause/words.ts";
import type { CylinderAssessment } from "@/lib/schema/assessment.ts";
import type { CylinderSettling } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { listWords } from "@/lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { Sheet } from "../sheet.tsx";
import { Term } from "../term.tsx";
import { whyAddress } from "../unit-address.ts";
import { GainDetails } from "./gain-details.tsx";
import { repairClassWords } from "./unit-words.ts";

// Below these a cause is told by its share alone, or only named together with the other unlikely ones.
const worthReasons = 0.05;
const worthReading = 0.01;

interface CausesProps {
  readonly unit: string;
  readonly of: CylinderAssessment;
  /** What would settle its causes; null: nothing wants settling. */
  readonly settling: CylinderSettling | null;
  readonly f: Formats;
}

/**
 * Causes of one cylinder's loss of sealing: the chance that it is mostly the fault of each, what speaks for it and what against. Of a sound cylinder
 * there is nothing to explain, and the usual shares are folded away, for they read like a chance of a fault.
 */
export function UnitCauses(props: CausesProps) {
  const { of } = props;
  if (of.band !== "sound" || of.testSetUp >= worthExplaining) return <CauseSheet {...props} />;
  return (
    <Sheet title={`Causes, cylinder ${of.cylinder}`} note="nothing to explain: it seals well">
      <details>
        <summary>If it did leak: what it would most likely be</summary>
        <CauseList {...props} />
      </details>
    </Sheet>
  );
}

/** A share of the test's own set-up that wants explaining also beside a sound level. */
const worthExplaining = 0.24;

function CauseSheet(props: CausesProps) {
  const { of, settling, f } = props;
  return (
    <Sheet
      title={`Causes, cylinder ${of.cylinder}`}
      note="whose fault the loss mostly is, and why; a quote is a range until the head is off"
    >
      <CauseList {...props} />
      {settling !== null && (
        <>
          <h3 className="unit-noted">What would settle it</h3>
          <ul className="unit-settles" aria-label="What would settle it">
            {settling.steps.map(({ title, causes, words, gain }) => (
              <li key={title}>
                {title}
                <span className="second">expected to settle {f.words(words)}</span>
                <span className="second">
                  speaks for or against: {listWords(causes.map((cause) => causeLabel(cause).toLowerCase()))}
                </span>
                <GainDetails gain={gain} f={f} />
              </li>
            ))}
          </ul>
        </>
      )}
    </Sheet>
  );
}

function CauseList({ unit, of, f }: CausesProps) {
  const causes = of.causes.filter((c) => c.probability >= worthReading).sort((a, b) => b.probability - a.probability);
  const unlikely = of.causes.filter((c) => c.probability < worthReading).map((c) => causeLabel(c.cause).toLowerCase());
  if (causes.length === 0) return <p>No test of this cylinder speaks for a cause yet.</p>;
  return (
    <>
      <ul className="unit-causes" aria-label="Causes by their share">
        {causes.map(({ cause, probability, because, against }) => (
          <li key={cause} className="keep-together">
            <p className="unit-cause">
              <strong>{causeLabel(cause)}</strong> <span className="second">{repairClassWords(cause)}</span>
              <strong className="unit-share">{f.probability(probability)}</strong>
            </p>
            <div className="unit-bar" aria-hidden="true">
              <div className="bar" style={{ width: `${probability * 100}%` }} />
            </div>
            {probability >= worthReasons && because.length + against.length > 0 && (
              <dl className="unit-evidence">
                <Evidence says="speaks for" sentences={because} f={f} />
                <Evidence says="speaks against" sentences={against} f={f} />
              </dl>
            )}
          </li>
        ))}
      </ul>
      {of.together != null && (
        <p className="unit-classes">{togetherWords(of.together, of.causes, (share) => f.probability(share))}</p>
      )}
      {unlikely.length > 0 && <p className="unit-classes">Under 1 % each: {listWords(unlikely)}.</p>}
      <p className="unit-classes">
        Taken together: <Term of="top-end" /> <strong>{f.probability(of.topEnd)}</strong>, <Term of="bottom-end" />{" "}
        <strong>{f.probability(of.bottomEnd)}</strong>, the test itself <strong>{f.probability(of.testSetUp)}</strong>.{" "}
        <AppLink href={`${whyAddress(unit, { cylinder: of.cylinder })}#causes`}>How these come about</AppLink>
      </p>
    </>
  );
}

/** What speaks for a cause, or against it, the strongest first. */
function Evidence(props: { readonly says: string; readonly sentences: readonly string[]; readonly f: Formats }) {
  const { says, sentences, f } = props;
  if (sentences.length === 0) return null;
  return (
    <div data-against={says === "speaks against"}>
      <dt>{says}</dt>
      {sentences.map((words) => (
        <dd key={words}>{f.words(words)}</dd>
      ))}
    </div>
  );
}
