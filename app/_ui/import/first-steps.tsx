import { DemoButton } from "./demo-button.client.tsx";
import { sampleAddress } from "./file-kinds.ts";

/** Beside the drop area while nothing is known: engines first, or the demo fleet to look round. */
export function FirstSteps({ job, mayLoad }: { readonly job: string | null; readonly mayLoad: boolean }) {
  return (
    <ol className="steps import-steps">
      <li>
        <h2>Engines first</h2>
        <p>
          Results need an engine model file: number of cylinders and the limits of each model, out of the maker’s
          manual. It may come together with the results.
        </p>
        <p className="step-action">
          <a href={sampleAddress("engine-models")} download>
            Sample engine models
          </a>
        </p>
      </li>
      <li>
        <h2>Then results</h2>
        <p>
          One row for each cylinder or one for each test; units, repairs and meter readings make the forecast better.
        </p>
        <p className="step-action">
          <a href={sampleAddress("tests-long")} download>
            Sample results
          </a>
          <a href={sampleAddress("units")} download>
            Sample units
          </a>
        </p>
      </li>
      <li>
        <h2>Or look round first</h2>
        <p>
          An invented fleet of 40 units with three years of tests. It is told for a date of its own, which the header
          shows.
        </p>
        <div className="step-action">
          {mayLoad ? <DemoButton job={job} /> : <span>Give your name below, then load it here.</span>}
        </div>
      </li>
    </ol>
  );
}
