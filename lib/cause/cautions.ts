import type { EngineModel } from "../schema/engine-model.ts";

/** Cautions where someone is about to test or open an engine; the maker's manual goes before all of them. */

/** Stands wherever a page sends someone to a leak-down test. */
export const leakDownCaution =
  "Test air can spin the crank: bar and socket off the bolt, hands, fan and propeller clear, brake on and wheels chocked; open the air slowly.";
/** The same before a compression test. */
export const crankingCaution = "Fuel and ignition disabled, neutral, no flame, clear of belts.";
/** Stands with either of them, whichever test is made. */
export const testingCaution =
  "Goggles on; regulator down before a hose comes off; oil mist leaves plug holes; listen by tube, engine stopped.";
export const coolantCaution = "Never open a hot cooling system.";
const dieselCaution = "Relieve the injection pressure first: spray enters the skin.";
/** Where nobody knows what the engine burns. */
export const perhapsDieselCaution = "If it is a diesel, relieve the injection pressure first: spray enters the skin.";

/** A fuel that is not told, or not known here, may be a diesel's: what hurts or harms on a diesel is said then too. */
export const fuelKind = ({ fuel }: EngineModel): "petrol" | "diesel" | "unknown" =>
  fuel === "petrol" || fuel === "diesel" ? fuel : "unknown";

export const crankingCautionFor = (model: EngineModel): string =>
  ({
    petrol: crankingCaution,
    diesel: `${crankingCaution} ${dieselCaution}`,
    unknown: `${crankingCaution} ${perhapsDieselCaution}`,
  })[fuelKind(model)];

/** What may hurt whoever tests an engine once more and then opens it, in the order of the work; the maker's manual goes before. */
export const openingCautions = (model: EngineModel): readonly string[] => [
  leakDownCaution,
  crankingCautionFor(model),
  testingCaution,
  ...(model.cooling === "air" ? [] : [coolantCaution]),
];

/** Of the test that the model's limits are written for. */
export const testCautionFor = (model: EngineModel): string =>
  model.leakDown === undefined ? crankingCautionFor(model) : leakDownCaution;
