import { repeatDays } from "../../../lib/condition/family-fit.ts";
import { type FleetRepeatability, fewestForInstrument } from "../../../lib/condition/fleet-repeatability.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { Sheet } from "../sheet.tsx";
import { Terms } from "../terms.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { measureNames } from "./compare-words.ts";
import { repeatabilityLines, repeatWords } from "./repeatability-words.ts";

/** What readings repeat to, by the fleet's own tests: what early warnings are judged by. */
export function RepeatabilitySheet(props: {
  readonly f: Formats;
  readonly of: Readonly<Record<JudgedMeasure, FleetRepeatability>>;
}) {
  const { f, of } = props;
  return (
    <Sheet
      title="What readings repeat to"
      note="standard deviations by the fleet’s own tests; early warnings are judged by them"
      long
    >
      <p>{repeatWords(f, of)}</p>
      <Terms of={["standard-deviation", "degrees-of-freedom", "analysis-of-variance"]} />
      {(["leak-down", "compression-dry"] as const).map((measure) => (
        <ScrollBox key={measure} name={`What ${measureNames[measure].toLowerCase()} repeats to`}>
          <table className="data-table repeatability-table">
            <caption>{measureNames[measure]}</caption>
            <thead>
              <tr>
                <th scope="col">Error</th>
                <th scope="col" className="number">
                  Standard deviation
                </th>
                <th scope="col" className="number">
                  95 % interval
                </th>
                <th scope="col">From</th>
              </tr>
            </thead>
            <tbody>
              {repeatabilityLines(f, of[measure]).map((line) => (
                <tr key={line.what}>
                  <th scope="row">{line.what}</th>
                  <td className="number">{line.sd}</td>
                  <td className="number">{line.interval}</td>
                  <td>{line.from}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      ))}
      <p className="second">
        A whole test and instruments: from tests repeated within {f.number(repeatDays)} days with no repair between, by
        analysis of variance, weighed against the starting value. A reading’s own error: from the changes between an
        engine’s successive tests, less what all its cylinders changed by. An instrument counts by itself from{" "}
        {f.number(fewestForInstrument)} degrees of freedom on; the others count as the fleet.
      </p>
    </Sheet>
  );
}
