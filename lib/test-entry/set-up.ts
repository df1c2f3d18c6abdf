import type { EngineModel } from "../schema/engine-model.ts";
import type { DraftSetUp } from "../schema/test-draft.ts";
import type { Measure } from "../schema/words.ts";

/** What is asked of the set-up before a test, in the order of the work (trade practice). */
export interface SetUpQuestion {
  readonly id: keyof DraftSetUp;
  readonly asks: string;
  /** What a slip here does to the readings, or to a hand. */
  readonly why: string;
  /** What is said loudly where the answer is no: nobody goes on with it. Left out: only the readings suffer. */
  readonly stop?: string;
}

const isDiesel = ({ fuel }: Pick<EngineModel, "fuel">): boolean => fuel === "diesel";

/**
 * Whether a wet test is offered. Oil in a diesel's small chamber can lock it, and several manuals forbid the test: only
 * where the model says so. Where the fuel is not known it is offered, and the page says when not.
 */
export const offersWetTest = (model: Pick<EngineModel, "fuel" | "wetTest">): boolean =>
  !isDiesel(model) || model.wetTest === true;

const warm: SetUpQuestion = {
  id: "warm",
  asks: "Engine warm",
  why: "Cold, all cylinders read 5 to 15 % low, and leakage some points high.",
};
const fuelOff: SetUpQuestion = {
  id: "fuelAndIgnitionOff",
  asks: "Fuel and ignition disabled",
  why: "Else the engine may start or spray fuel while hands are on it.",
  stop: "Nobody cranks or turns an engine whose fuel and ignition are live. Disable both as the maker’s manual says, then go on.",
};

function plugsOut(model: Pick<EngineModel, "fuel">): SetUpQuestion {
  return {
    id: "allPlugsOut",
    asks: isDiesel(model) ? "All glow plugs or injectors out" : "All plugs out",
    why: "Left in, they slow the cranking: all read low, leaky ones most.",
  };
}

const throttle: SetUpQuestion = {
  id: "throttleOpen",
  asks: "Throttle and choke wide open",
  why: "Shut, all cylinders read 10 to 40 % low together.",
};
const battery: SetUpQuestion = {
  id: "batterySupported",
  asks: "Battery supported by a charger",
  why: "A tiring battery lets the values slide down in the order of testing.",
};

const leakDown: readonly SetUpQuestion[] = [
  {
    id: "gaugeZeroed",
    asks: "Gauge zeroed on a closed hose",
    why: "Else all cylinders are shifted alike.",
  },
  {
    id: "tdcConfirmed",
    asks: "Top dead centre on compression confirmed",
    why: "Come up in running direction; if passed, go back half a turn and come up again. Off it, a valve is open.",
  },
  {
    id: "crankshaftHeld",
    asks: "Crankshaft held",
    why: "Test air can spin it, and a piston past top dead centre reads near 100 %.",
    stop: "Nobody lets test air into an engine whose crankshaft is free: it can spin and take a hand along. Hold it as the maker’s manual says, then go on.",
  },
];

/** The questions of one kind of test. A diesel has no throttle. */
export function setUpQuestions(test: Measure, model: Pick<EngineModel, "fuel">): readonly SetUpQuestion[] {
  if (test === "leak-down") return [warm, fuelOff, ...leakDown];
  return [warm, fuelOff, plugsOut(model), ...(isDiesel(model) ? [] : [throttle]), battery];
}

/** The questions whose answer, as it stands, keeps everybody from going on. */
export const stopsOf = (test: Measure, setUp: DraftSetUp): readonly SetUpQuestion[] =>
  setUpQuestions(test, {}).filter(({ id, stop }) => stop !== undefined && setUp[id] === false);

const withoutColumn = {
  "compression-dry": ["batterySupported", "fuelAndIgnitionOff"],
  "compression-wet": ["batterySupported", "fuelAndIgnitionOff"],
  "leak-down": ["fuelAndIgnitionOff", "crankshaftHeld"],
} as const satisfies Record<Measure, readonly (keyof DraftSetUp)[]>;

const columnless = {
  batterySupported: "battery supported",
  fuelAndIgnitionOff: "fuel and ignition disabled",
  crankshaftHeld: "crankshaft held",
} as const;

/** How an answer is told everywhere: what was skipped was not confirmed. */
export const answerWords = (answer: boolean | null): string =>
  answer === null ? "not confirmed" : answer ? "yes" : "no";

/**
 * The set-up that has no column of its own, as the fixed sentence that goes into the remarks: "Set-up: battery supported:
 * yes; fuel and ignition disabled: not confirmed."
 */
export const setUpRemark = (test: Measure, setUp: DraftSetUp): string =>
  `Set-up: ${withoutColumn[test].map((id) => `${columnless[id]}: ${answerWords(setUp[id])}`).join("; ")}.`;
