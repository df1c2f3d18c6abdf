import type { AssessmentBasis } from "../schema/changes.ts";
import { judgedMeasures } from "../schema/words.ts";
import { percentWords } from "../wording.ts";
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

/**
 * "widened by 30 %", "narrowed by 9 %": how ranges are told under a factor, everywhere in the same words.
 *
 * @param percent how a whole number of per cent is written
 */
export function widthFactorWords(factor: number, percent: (value: number) => string): string {
  const by = percent(Math.round(100 * Math.abs(factor - 1)));
  return factor > 1 ? `widened by ${by}` : `narrowed by ${by}`;
}

/** "Ranges of leak-down are widened by 30 %, as this model’s past forecasts asked." */
export function widthWords(told: ToldWidths): string {
  const parts = judgedMeasures.flatMap((measure) => {
    const factor = told[measure];
    return factor === undefined ? [] : [`${names[measure]} are ${widthFactorWords(factor, percentWords)}`];
  });
  return `Ranges of ${parts.join(", of ")}, as this model’s past forecasts asked.`;
}
