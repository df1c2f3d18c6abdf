"use client";

import { Checkbox } from "@mantine/core";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { cylinderRows } from "../cylinder-rows.ts";
import { EngineDrawing } from "./engine-drawing.tsx";
import { isTied, pairsToTie, type Tie, toggledTie } from "./ties.ts";

/** The engine from above: a press on the gap between two cylinders ties or unties them. A list of pairs does the same. */
export function SketchEditor(props: {
  readonly layout: EngineModel["layout"];
  readonly cylinders: number;
  readonly ties: readonly Tie[];
  readonly onChange: (ties: readonly Tie[]) => void;
}) {
  const { layout, cylinders, ties } = props;
  const { beside, others } = pairsToTie(layout, cylinders, ties);
  const toggle = (tie: Tie) => props.onChange(toggledTie(ties, tie));
  return (
    <>
      <EngineDrawing
        layout={layout}
        rows={cylinderRows(layout, cylinders)}
        between={(a, b) => (
          <button
            type="button"
            className="sketch-gap"
            aria-pressed={isTied(ties, [a, b])}
            aria-label={`Gasket bridge of cylinders ${a} and ${b}`}
            onClick={() => toggle([a, b])}
          >
            <span className="sketch-tie" data-joined={isTied(ties, [a, b])} />
          </button>
        )}
      />
      {beside.length + others.length > 0 && (
        <fieldset className="tie-list">
          <legend>The same as a list</legend>
          {[...beside, ...others].map(([a, b]) => (
            <Checkbox
              key={`${a} ${b}`}
              label={`${a} and ${b}`}
              checked={isTied(ties, [a, b])}
              onChange={() => toggle([a, b])}
            />
          ))}
        </fieldset>
      )}
    </>
  );
}
