import type { AssessedUnit } from "../assess.ts";
import type { Crossing } from "../schema/assessment.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import type { EngineHistory, FleetIndex } from "../sealing/types.ts";

/** The fleet in which the engine of this history has had just these tests. */
export const sealedWith = (index: FleetIndex, history: EngineHistory): FleetIndex => ({
  ...index,
  seal: (engine) => (engine === history.engine ? history : index.seal(engine)),
});

/** The told crossing of one cylinder in one measure; null: the measure was never taken of it, or is not judged. */
export function crossingAt(
  { assessment }: AssessedUnit,
  { cylinder, measure }: { readonly cylinder: number; readonly measure: JudgedMeasure },
): Crossing | null {
  const own = assessment.cylinders.find((c) => c.cylinder === cylinder);
  return own?.measures.find((m) => m.measure === measure)?.crossing ?? null;
}
