import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import { type Measure, measures } from "../../../lib/schema/words.ts";
import { offersWetTest } from "../../../lib/test-entry/set-up.ts";

/** The kinds of test that a sheet of paper has room for: the one asked for, else all that the model is judged on. */
export function paperTests(model: EngineModel, asked: unknown): readonly Measure[] {
  const one = measures.find((test) => test === asked);
  if (one !== undefined && (one !== "compression-wet" || offersWetTest(model))) return [one];
  return [
    ...(model.compression === undefined ? [] : (["compression-dry"] as const)),
    ...(model.leakDown === undefined ? [] : (["leak-down"] as const)),
  ];
}
