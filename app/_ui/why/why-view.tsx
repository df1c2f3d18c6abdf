import type { Explained, UnitExplanation } from "@/lib/explain/types.ts";
import type { UnitReport } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { EmptyState } from "../empty-state.tsx";
import { Terms } from "../terms.tsx";
import { testAddress } from "../test-sheet/address.ts";
import { AircraftLine } from "../unit/unit-cautions.tsx";
import { unitAddress } from "../unit-address.ts";
import { DerivationSheet } from "./derivation-sheet.tsx";
import { NextTestSheet } from "./next-test-sheet.tsx";
import { RestsOnSheet } from "./rests-on-sheet.tsx";
import { TestEffectsSheet } from "./test-effects-sheet.tsx";
import { nextTestWords, shareWords, strongestWords, whyFinding, windowWords } from "./why-words.ts";

/** Why a unit's date is what it is: in words first, then each figure with where it comes from. */
export function WhyView(props: {
  readonly report: UnitReport;
  readonly explanation: UnitExplanation | null;
  readonly f: Formats;
}) {
  const { report, explanation, f } = props;
  const { unit } = report.assessment;
  return (
    <div className="page why-page">
      <nav aria-label="Way back" className="unit-way no-print">
        <AppLink href={unitAddress(unit)}>{unit}</AppLink>
      </nav>
      {explanation?.state === "explained" ? (
        <Explanation e={explanation} report={report} f={f} />
      ) : (
        <NothingToExplain unit={unit} isTested={explanation !== null && explanation.state !== "never-tested"} />
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
            shareWords(e),
            strongestWords(e, f),
            ...(e.nextTest === null ? [] : [nextTestWords(e.nextTest, e.measure, f)]),
          ]
            .filter((words) => words !== "")
            .join(" ")}
        </p>
        <p className="second">
          {report.assessment.unit} as of {f.date(e.asOf)}. {windowWords(e, f)}
        </p>
        <Terms of={["window", "level", "rate", "forecast-range"]} />
      </div>
      <TestEffectsSheet e={e} f={f} />
      <div className="why-pair">
        <RestsOnSheet e={e} unit={report.assessment.unit} f={f} />
        <NextTestSheet e={e} unit={report.assessment.unit} f={f} />
      </div>
      <DerivationSheet e={e} model={report.model} f={f} />
    </>
  );
}

function NothingToExplain({ unit, isTested }: { readonly unit: string; readonly isTested: boolean }) {
  return (
    <>
      <h1 className="finding">
        {isTested ? `${unit} has no date yet: too few usable tests.` : `${unit} has no date: it has had no test yet.`}
      </h1>
      <EmptyState
        says={
          isTested
            ? "Three usable tests since the last repair give a rate, a date and its range. Until then there is nothing to explain; the next test helps most."
            : "A first test gives the level of each cylinder; three usable tests give a rate, a date and its range."
        }
      >
        <AppLink href={testAddress(unit)} variant="button">
          Enter a test
        </AppLink>
      </EmptyState>
    </>
  );
}
