import type { AssessmentBasis } from "../schema/changes.ts";
import { judgedMeasures } from "../schema/words.ts";
import { numberWords } from "../wording.ts";
import type { EngineState } from "./engine.ts";

type ToldWidths = NonNullable<AssessmentBasis["widths"]>;

/** The factors that ranges of the engine were told with; null: all as they come. */
export function toldWidths({ wear, widths }: Pick<EngineState, "wear" | "widths">): ToldWidths | null {
  const told = judgedMeasures.filter(
    (measure) => widths[measure] !== 1 && wear[measure].cylinders.some(({ branches }) => branches.length > 0),
  );
  return told.length === 0 ? null : Object.fromEntries(told.map((measure) => [measure, widths[measure]]));
}

const names = { "leak-down": "leak-down", "compression-dry": "compression" } as const;

/** "Ranges of leak-down are widened by 1.2 times, as this model’s past forecasts asked." */
export function widthWords(told: ToldWidths): string {
  const parts = judgedMeasures.flatMap((measure) => {
    const factor = told[measure];
    if (factor === undefined) return [];
    const verb = factor > 1 ? "widened by" : "narrowed to";
    return [`${names[measure]} are ${verb} ${numberWords(factor, 2)} times`];
  });
  return `Ranges of ${parts.join(", of ")}, as this model’s past forecasts asked.`;
}
