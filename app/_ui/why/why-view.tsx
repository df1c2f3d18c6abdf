import type { Explained, UnitExplanation } from "@/lib/explain/types.ts";
import type { EngineModel } from "@/lib/schema/engine-model.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { modelAddress } from "../models/address.ts";
import { NotUnderstood } from "../not-understood.tsx";
import { Terms } from "../terms.tsx";
import { testAddress } from "../test-sheet/address.ts";
import { AircraftLine } from "../unit/unit-cautions.tsx";
import { unitAddress } from "../unit-address.ts";
import { CausesSheet } from "./causes-sheet.tsx";
import { DerivationSheet } from "./derivation-sheet.tsx";
import { NextTestSheet } from "./next-test-sheet.tsx";
import { OtherPlaces } from "./other-places.tsx";
import { RestsOnSheet } from "./rests-on-sheet.tsx";
import { TestEffectsSheet } from "./test-effects-sheet.tsx";
import {
  nextTestWords,
  openStepWords,
  shareWords,
  strongestWords,
  type Unexplained,
  unexplainedWords,
  whyFinding,
  windowWords,
} from "./why-words.ts";

/** Why a unit's date is what it is: in words first, then each figure with where it comes from. */
export function WhyView(props: {
  readonly report: UnitReport;
  readonly explanation: UnitExplanation | null;
  /** What of the page's address is not understood; null: all is. */
  readonly notUnderstood: string | null;
  readonly f: Formats;
}) {
  const { report, explanation, notUnderstood, f } = props;
  const { unit } = report.assessment;
  return (
    <div className="page why-page">
      <nav aria-label="Way back" className="unit-way no-print">
        <AppLink href={unitAddress(unit)}>{unit}</AppLink>
      </nav>
      <NotUnderstood says={notUnderstood} />
      {explanation?.state === "explained" ? (
        <Explanation e={explanation} report={report} f={f} />
      ) : (
        <NothingToExplain unit={unit} model={report.model} explanation={explanation ?? { state: "never-tested" }} />
      )}
      {report.model.aircraft && <AircraftLine />}
    </div>
  );
}

function Explanation({ e, report, f }: { readonly e: Explained; readonly report: UnitReport; readonly f: Formats }) {
  return (
    <>
      <div className="why-words">
        <h1 className="finding">{whyFinding(e, f)}</h1>
        <p>
          {[
            shareWords(e, f),
            strongestWords(e, f),
            ...(e.nextTest === null ? [] : [nextTestWords(e.nextTest, e.measure, f)]),
            openStepWords(e, f),
          ]
            .filter((words) => words !== "")
            .join(" ")}
        </p>
        <p className="second">
          {report.assessment.unit} as of {f.date(e.asOf)}. {windowWords(e, f)}
        </p>
        <OtherPlaces e={e} unit={report.assessment.unit} />
        <Terms of={["window", "level", "rate", "forecast-range"]} />
      </div>
      <TestEffectsSheet e={e} f={f} />
      <div className="why-pair">
        <RestsOnSheet e={e} unit={report.assessment.unit} f={f} />
        <NextTestSheet e={e} unit={report.assessment.unit} f={f} />
      </div>
      <DerivationSheet e={e} model={report.model} f={f} />
      <CausesSheet e={e} model={report.model.id} f={f} />
    </>
  );
}

function NothingToExplain(props: {
  readonly unit: string;
  readonly model: EngineModel;
  readonly explanation: Unexplained;
}) {
  const { unit, model, explanation } = props;
  const { title, says } = unexplainedWords(unit, explanation);
  return (
    <>
      <h1 className="finding">{title}</h1>
      <EmptyState says={says}>
        {explanation.state === "no-limit" ? (
          <AppLink href={modelAddress(model.id)} variant="button">
            Engine model {model.name ?? model.id}
          </AppLink>
        ) : (
          <AppLink href={testAddress(unit)} variant="button">
            Enter a test
          </AppLink>
        )}
      </EmptyState>
    </>
  );
}
