import type { ReactNode } from "react";
import type { KnownSoFar } from "../../../db/known-so-far.ts";
import type { FileKind } from "../../../lib/schema/words.ts";
import { countWord, sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { kindsOfFile, sampleAddress } from "../import/file-kinds.ts";
import { TestCautions } from "../test-cautions.tsx";
import "./first-steps.css";

/** Samples that go with test results, in the order in which they help. */
const samplesOfResults = [
  "tests-long",
  "tests-wide",
  "units",
  "depots",
  "repairs",
  "meters",
  "checks",
  "judgements",
] as const;

/**
 * The way from an empty app to the first forecast; what is done is shown as done. `toImport` leads to the place where
 * files are taken in and `toForecast` to the third step; a page gives what fits it.
 */
export function FirstSteps(props: {
  readonly known: KnownSoFar;
  readonly toImport: ReactNode;
  readonly toForecast: ReactNode;
}) {
  const { engineModels, hasTests, isEmpty } = props.known;
  return (
    <>
      <ol className="steps">
        <Step title="Get the engine models" done={engineModels > 0}>
          <p>
            {engineModels > 0
              ? `${modelsWords(engineModels)} known. More may come at any time; each change is kept as a version.`
              : "A JSON file with the cylinders, limits, tester and repair costs of each engine model. The maker’s manual always wins. It may come together with the results."}
          </p>
          <div className="step-action">
            {engineModels === 0 && props.toImport}
            {engineModels === 0 && <AppLink href="/models/new">Add one by hand</AppLink>}
            <Samples kinds={["engine-models"]} />
          </div>
        </Step>
        <Step title="Get the tests" done={hasTests}>
          <p>
            A CSV, one row for each cylinder or one for each test. Units, depots, repairs and meter readings make the
            forecast better. You see what a file would change before anything is kept, and an import can be undone.
          </p>
          <div className="step-action">
            {engineModels > 0 && !hasTests && props.toImport}
            <Samples kinds={samplesOfResults} />
          </div>
        </Step>
        <Step title="See the forecast" done={false}>
          <p>
            Three tests of a unit already give a range; the more, the narrower.
            {isEmpty &&
              " To look round first, load an invented fleet of 40 units; its import can be undone like any other."}
          </p>
          {isEmpty && <div className="step-action">{props.toForecast}</div>}
        </Step>
      </ol>
      {!hasTests && <TestCautions />}
    </>
  );
}

const modelsWords = (count: number): string =>
  count === 1 ? "One engine model is" : `${sentenceWords(countWord(count))} engine models are`;

function Step(props: { readonly title: string; readonly done: boolean; readonly children: ReactNode }) {
  return (
    <li data-done={props.done}>
      <h2>
        {props.title}
        {props.done && (
          <>
            {" "}
            <span className="tag">done</span>
          </>
        )}
      </h2>
      {props.children}
    </li>
  );
}

function Samples({ kinds }: { readonly kinds: readonly FileKind[] }) {
  return (
    <div className="samples">
      <p className="small">Samples to download, invented:</p>
      <ul>
        {kinds.map((kind) => (
          <li key={kind}>
            <a href={sampleAddress(kind)} download>
              {kindsOfFile[kind].title}
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}
