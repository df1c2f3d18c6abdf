import { fewestOutcomes, type IssuedRecord } from "../../../lib/schema/track-record.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { levelUnitOf, measureNames } from "../compare/compare-words.ts";
import { Sheet } from "../sheet.tsx";
import { errorFigure, issuedWords } from "./record-words.ts";

/** Forecasts as they stood on the page at the time. They are kept frozen, whatever the program says of that day now. */
export function IssuedSheet({ f, issued }: { readonly f: Formats; readonly issued: IssuedRecord }) {
  const { forecasts, outcomes, window, levels, within } = issued;
  const hasOutcome = forecasts > 0;
  const isEnough = outcomes >= fewestOutcomes;
  return (
    <Sheet
      title="As issued"
      note="What was told at the time, by the program of that time; above: what this version would have said"
    >
      <p>
        {issuedWords(f, issued)}{" "}
        {!hasOutcome && "No test has come after them, so it can’t be told yet how they turned out."}
        {hasOutcome &&
          !isEnough &&
          `${f.number(outcomes)} later ${outcomes === 1 ? "test has" : "tests have"} come: counts only, for under ${fewestOutcomes} it can’t be told yet.`}
      </p>
      {hasOutcome && (
        <dl className="record-facts">
          <div>
            <dt>Windows early to late (80 %)</dt>
            <dd>
              {f.number(window.held)} held, {f.number(window.missed)} missed, {f.number(window.open)} open
            </dd>
          </div>
          {levels.map(({ measure, readings, medianError }) => (
            <div key={measure}>
              <dt>{measureNames[measure]}: level and rate against the next reading</dt>
              <dd>
                {f.number(readings)} {readings === 1 ? "reading" : "readings"}
                {medianError !== null && `, off by ${errorFigure(f, medianError, levelUnitOf(measure))} in the middle`}
              </dd>
            </div>
          ))}
          <div>
            <dt>Within a year</dt>
            <dd>
              {f.number(within.met)} of {f.number(within.forecasts)} forecasts came to meet the limit
              {within.brier !== null && `; Brier score ${f.number(within.brier, 3)}`}
            </dd>
          </div>
        </dl>
      )}
    </Sheet>
  );
}
