import type { ReactNode } from "react";
import type { EngineModel } from "../../../lib/schema/engine-model.ts";
import type { MeterUnit } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { FactList } from "../fact-list.tsx";
import { intervalWords, limitsWords, repairCostWords, spreadWords } from "./model-words.ts";

/** A model's facts as terms and words. */
export function ModelFacts(props: {
  readonly model: EngineModel;
  readonly meterUnit: MeterUnit | null;
  readonly f: Formats;
}) {
  return <FactList facts={factsOf(props.f, props.model, props.meterUnit)} />;
}

function factsOf(
  f: Formats,
  model: EngineModel,
  meterUnit: MeterUnit | null,
): readonly (readonly [term: string, words: ReactNode])[] {
  const { leakDown, compression, repairs } = model;
  const spread = compression === undefined ? null : spreadWords(f, compression);
  const interval = intervalWords(f, model, meterUnit);
  return [
    ["Fuel", sentenceWords(model.fuel ?? "not told")],
    ["Leak-down", leakDown === undefined ? "not judged" : limitsWords(f, leakDown)],
    ...(leakDown?.valves === undefined ? [] : ([["Where valves leak", limitsWords(f, leakDown.valves)]] as const)),
    ...(leakDown === undefined
      ? []
      : ([
          ["Usual tester", `${f.number(leakDown.orificeMm, 3)} mm bore, supply ${f.pressure(leakDown.supplyKpa)}`],
        ] as const)),
    [
      "Compression",
      compression === undefined
        ? "not judged"
        : `new ${f.pressure(compression.newKpa)}, minimum ${f.pressure(compression.minimumKpa)}`,
    ],
    ...(compression === undefined ? [] : ([["Spread", spread ?? "not judged"]] as const)),
    ...(compression?.referenceRpm === undefined
      ? []
      : ([["Cranking speed", `${f.number(compression.referenceRpm)} rpm`]] as const)),
    ["Test interval", interval === null ? "the fleet’s" : sentenceWords(interval)],
    ["Top-end repair", repairs?.topEnd === undefined ? "cost not told" : repairCostWords(f, repairs.topEnd)],
    ["Bottom-end repair", repairs?.bottomEnd === undefined ? "cost not told" : repairCostWords(f, repairs.bottomEnd)],
    ...(repairs?.both === undefined ? [] : ([["Both at once", repairCostWords(f, repairs.both)]] as const)),
    ...(repairs?.exchange === undefined ? [] : ([["Another engine", repairCostWords(f, repairs.exchange)]] as const)),
  ];
}
