import { mergedBores, type ToldBore } from "../condition/told-bores.ts";
import type { UnexplainedImprovement } from "../condition/types.ts";
import { seaLevelAbsKpa } from "../sealing/atmosphere.ts";
import { usualTester } from "../sealing/leak-down.ts";
import { leakAreaMm2, leakagePercent, testerInUse } from "../sealing/orifice.ts";
import { listWords, numberWords } from "../wording.ts";
import type { EngineState } from "./engine.ts";
import type { FleetPools } from "./pools.ts";

/**
 * The questions that improvements without a repair ask. Where the tester changed at the step and its restrictor was not
 * recorded, also whether it was another restrictor, with what other units' tests tell of that tester and what the engine's
 * last readings would then come to.
 */
export function stepQuestions({ conditioned }: EngineState, { families = [] }: FleetPools): readonly string[] {
  const bores = mergedBores(families.flatMap((family) => family.bores ?? []));
  return conditioned.improvements.map((step) =>
    [step.words, boreQuestion(conditioned, step, bores)].filter((words) => words !== null).join(" "),
  );
}

function boreQuestion(
  { history }: EngineState["conditioned"],
  { blankBoreOf, to }: UnexplainedImprovement,
  bores: readonly ToldBore[],
): string | null {
  if (blankBoreOf == null) return null;
  const asked = `Was it ${blankBoreOf} with another restrictor?`;
  const usual = usualTester(history.model);
  const others = bores.filter(({ instrument, unit, orificeMm }) => {
    return instrument === blankBoreOf && orificeMm !== usual.orificeMm && !history.tests.some((t) => t.unit === unit);
  });
  const [first] = others;
  if (first === undefined) return asked;
  const alike = others.filter(({ orificeMm }) => orificeMm === first.orificeMm);
  // Where two restrictors are told of it, nobody knows which.
  if (alike.length < others.length) return asked;
  const tester = testerInUse({
    orificeMm: first.orificeMm,
    supplyKpa: usual.supplyKpa,
    ambientAbsKpa: seaLevelAbsKpa,
  });
  const percent = leakagePercent(usual, leakAreaMm2(tester, to));
  return `${asked} At ${listWords(alike.map(({ unit }) => unit))} it was told as ${numberWords(first.orificeMm, 3)} mm; if so here too, ${numberWords(to)} % is ${numberWords(percent)} % on the model's usual tester. Enter the restrictor to settle it.`;
}
