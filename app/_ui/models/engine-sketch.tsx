import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { areJoined, standingRows } from "../unit/standing.ts";
import { EngineDrawing } from "./engine-drawing.tsx";
import { tiesInWords } from "./model-words.ts";

/** A model's engine as it stands, with a tie where two cylinders share a gasket bridge; in words below. */
export function EngineSketch({ model }: { readonly model: EngineModel }) {
  return (
    <figure className="sketch-figure">
      <EngineDrawing
        layout={model.layout}
        rows={standingRows(model)}
        between={(a, b) => (
          <span className="sketch-gap" aria-hidden="true">
            <span className="sketch-tie" data-joined={areJoined(model.neighbours, a, b)} />
          </span>
        )}
      />
      <figcaption className="second">{tiesInWords(model)}</figcaption>
    </figure>
  );
}
