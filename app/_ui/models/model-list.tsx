import type { ModelUnits } from "../../../db/engine-models.ts";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { AppLink } from "../app-link.client.tsx";
import { modelAddress, modelEditAddress, modelEvidenceAddress } from "./address.ts";
import { EngineSketch } from "./engine-sketch.tsx";
import { ModelFacts } from "./model-facts.tsx";
import { commonMeterUnit, ModelUnitCounts } from "./model-units.tsx";
import { cylindersWords } from "./model-words.ts";

/** Engine models one below the other: the engine drawn, what it is judged by, and how its units stand. */
export function ModelList(props: {
  readonly models: readonly EngineModel[];
  readonly units: readonly ModelUnits[];
  readonly f: Formats;
}) {
  const { models, units, f } = props;
  return (
    <ul className="thing-list">
      {models.map((model) => {
        const own = units.filter(({ engineModel }) => engineModel === model.id);
        return (
          <li key={model.id} className="keep-together">
            <div className="thing-says">
              <h3>
                <AppLink href={modelAddress(model.id)}>{model.id}</AppLink>
              </h3>
              {model.name !== undefined && <p>{model.name}</p>}
              <p className="second">{kindWords(model)}</p>
              <ModelUnitCounts model={model.id} units={own} f={f} />
              <EngineSketch model={model} />
              <p className="no-print">
                <AppLink href={modelEditAddress(model.id)}>Change {model.id}</AppLink> ·{" "}
                <AppLink href={modelEvidenceAddress(model.id)}>Findings and causes of {model.id}</AppLink>
              </p>
            </div>
            <ModelFacts model={model} meterUnit={commonMeterUnit(own)} f={f} />
          </li>
        );
      })}
    </ul>
  );
}

const kindWords = (model: EngineModel): string =>
  `${sentenceWords([cylindersWords(model), model.aircraft ? "aircraft" : ""].filter((part) => part !== "").join(", "))}.`;
