import type { EngineModel } from "../schema/engine-model.ts";
import type { EvidenceId } from "../schema/evidence-ids.ts";
import type { StepGain } from "../schema/report.ts";
import type { Band, Cause, Measure } from "../schema/words.ts";
import { cylinderWords, numberWords } from "../wording.ts";
import { notTestedYet } from "./diagnose.ts";
import { evidenceTitle } from "./evidence-titles.ts";
import { type NextTestId, nextTests, openCauses, settledWords, type TestGain, testGains } from "./next-tests.ts";
import { type CauseTable, tableFor } from "./table.ts";
import type { CylinderDiagnosis } from "./types.ts";

export interface NextStep {
  readonly title: string;
  readonly detail: string;
  /** What may hurt at this step; null: nothing in particular, or said at a step before it. */
  readonly caution: string | null;
  /** What it is expected to settle, and what that is made of; left out where the step asks for no such test. */
  readonly gain?: StepGain;
}

/** From this share on a cause is pursued: the test itself is repeated, the cheapest cure of a valve tried. */
const worthPursuing = 0.12;
const stepsTold = 5;
/** A test that settles less of what is open is not worth its hour. */
const worthTesting = 0.04;
/** A cause below this share is not named among those that a step parts. */
const worthNaming = 0.03;

/** Cautions where someone is about to test or open an engine; the maker's manual goes before all of them. */
/** Stands wherever a page sends someone to a leak-down test. */
export const leakDownCaution =
  "Test air can spin the crank: bar and socket off the bolt, hands, fan and propeller clear, brake on and wheels chocked; open the air slowly.";
/** The same before a compression test. */
export const crankingCaution = "Fuel and ignition disabled, neutral, no flame, clear of belts.";
/** Stands with either of them, whichever test is made. */
export const testingCaution =
  "Goggles on; regulator down before a hose comes off; oil mist leaves plug holes; listen by tube, engine stopped.";
const coolantCaution = "Never open a hot cooling system.";
const dieselCaution = "Relieve the injection pressure first: spray enters the skin.";
/** Where nobody knows what the engine burns. */
export const perhapsDieselCaution = "If it is a diesel, relieve the injection pressure first: spray enters the skin.";

interface NextStepsInput {
  readonly model: EngineModel;
  readonly band?: Band | null;
  /** Last tests in doubt: a repeat comes before all else. `cylinder` null: of all cylinders. */
  readonly repeats?: readonly { readonly measure: Measure; readonly cylinder: number | null }[];
  /** Readings improved and no repair is on file: the papers are looked up before anything is measured. */
  readonly unexplained?: boolean;
  /** The cylinder had a wet test lately: no second one is asked for. */
  readonly wetTested?: boolean;
  /** The evidence table in force; left out: the starting one, with what the model's file says. */
  readonly table?: CauseTable;
  /** Why a test after a warm run comes first, a sentence without its stop: the engine stood. null: it did not. */
  readonly stood?: string | null;
  /** What has to be done before all that settles a cause: the unit is not to go out before it. null: nothing. */
  readonly first?: { readonly title: string; readonly detail: string } | null;
  /** That the unit is planned to be sold before its repair is likely, in words: then no repair is asked for. null: not so. */
  readonly soldBefore?: string | null;
}

/**
 * What settles the doubt about one cylinder next, each with the cautions that belong to it: the cheapest cure first (an
 * adjustment, where a valve is in question), then the test that is expected to settle most for its hours
 * (lib/cause/next-tests.ts). Pass the cylinder's `band`: a sound one needs nothing but its next test. At most five steps beside repeats of tests in doubt, and
 * for an aircraft engine one more: who decides. Advice on what to look at, never a release to run.
 */
export function nextSteps(diagnosis: CylinderDiagnosis, input: NextStepsInput): NextStep[] {
  const { model, repeats = [], unexplained = false, stood = null, first = null } = input;
  const steps = cautionsOnce([
    ...(first === null ? [] : [{ ...first, caution: null }]),
    ...(stood === null ? [] : [warmRunStep(model, stood)]),
    ...(unexplained ? [papersStep] : []),
    ...repeats.map(repeatStep(model)),
    ...stepsOf(diagnosis, { ...input, repeats }),
  ]);
  if (model.aircraft) {
    steps.push({
      title: "Ask the licensed engineer",
      detail: "Approved data and a licensed engineer decide; this only records and plans.",
      caution: null,
    });
  }
  return steps;
}

const warmRunStep = (model: EngineModel, stood: string): NextStep => ({
  title: "Test again after a warm run",
  detail: `${stood}.`,
  caution: testCautionFor(model),
});

const papersStep: NextStep = {
  title: "Look up job cards, engine number and tester",
  detail: "Readings improved and no repair is on file: repaired, engine swapped, or measured with another tester?",
  caution: null,
};

function stepsOf(
  diagnosis: CylinderDiagnosis,
  { model, band, repeats = [], unexplained = false, wetTested = false, table, soldBefore = null }: NextStepsInput,
): NextStep[] {
  if (band === null || diagnosis.causes[0]?.because.includes(notTestedYet)) {
    const test = model.leakDown === undefined ? "compression test" : "leak-down test";
    return [
      {
        title: "Book a baseline test",
        detail: `Nothing tells its state yet: a first ${test}, warm.`,
        caution: testCautionFor(model),
      },
    ];
  }
  const isSetUpLikely = diagnosis.testSetUp >= worthPursuing * 2;
  if (band === "sound" && (repeats.length > 0 || unexplained)) return [];
  if (band === "sound" && !isSetUpLikely) {
    return [{ title: "Test again at the usual interval", detail: "Nothing needs settling now.", caution: null }];
  }
  const shares = new Map(diagnosis.causes.map(({ cause, probability }) => [cause, probability]));
  const share = (...some: readonly Cause[]) => some.reduce((sum, cause) => sum + (shares.get(cause) ?? 0), 0);
  const gains = gainsOf(diagnosis, { model, wetTested, ...(table === undefined ? {} : { table }) });
  const kept = gains.filter((gain) => gain.share >= worthTesting).map(({ id }) => id);
  const first: NextTestId[] = [];
  if ((isSetUpLikely || diagnosis.oddCompression) && repeats.length === 0) first.push("re-test");
  // What has to be made again before it is believed takes no place from what settles the cause.
  const most = stepsTold + (diagnosis.oddCompression ? 1 : 0);
  const isValveOpen = share("exhaust-valve", "inlet-valve", "valve-timing") >= worthPursuing;
  if (isValveOpen && gains.some(({ id }) => id === "clearance")) first.push("clearance");
  if (soldBefore !== null) {
    // What a repair would be chosen by is worth no hours where none is to be made; a test that may be wrong is made again.
    const retest = first.includes("re-test") ? [step("re-test", diagnosis, model)] : [];
    return [...retest, { title: "Plan no overhaul", detail: soldBefore, caution: null }];
  }
  const order = [...first, ...kept.filter((id) => !first.includes(id) && !(id === "re-test" && repeats.length > 0))];
  const told = order.slice(0, most).map((id) => {
    const gain = gains.find((one) => one.id === id);
    const { detail, ...rest } = step(id, diagnosis, model);
    if (gain === undefined || gain.share < worthTesting) return { ...rest, detail };
    return { ...rest, detail: `${detail} Expected to settle ${gainWords(gain)}.`, gain: gainOf(gain) };
  });
  if (told.length === 0 && repeats.length === 0) told.push(enoughKnown);
  const isClassOpen = Math.max(diagnosis.topEnd, diagnosis.bottomEnd) < 0.7;
  const isReasonOpen = share("head-gasket", "cracked-head-or-block") >= 0.3;
  if ((isClassOpen && !isSetUpLikely) || isReasonOpen) {
    if (told.length === most) told.pop();
    told.push({
      title: "Ask for the quote as a range",
      detail: isReasonOpen
        ? "Gasket or crack shows only with the head off: have flatness measured and the bare head tested then."
        : "Top end or bottom end is not settled by the tests so far; it stays a range until the head is off.",
      caution: null,
    });
  }
  return told;
}

const enoughKnown: NextStep = {
  title: "Plan the repair",
  detail: "No further test is expected to settle more of the cause than is settled now.",
  caution: null,
};

/** "about half of what is open, in some 1.5 h" */
const gainWords = ({ share, hours }: TestGain): string => `${settledWords(share)}, in some ${numberWords(hours, 1)} h`;

/** As many decimals of shares and bits as a report keeps. */
const kept = (value: number): number => Math.round(1e4 * value) / 1e4;
/** A result that is hardly to be expected is counted, not listed. */
const worthListing = 0.01;

function gainOf({ id, share, hours, parts }: TestGain): StepGain {
  const told = (of: TestGain["parts"]["cause"]) => ({ open: kept(of.open), told: kept(of.told) });
  const listed = parts.results.filter(({ chance }) => chance >= worthListing);
  return {
    share: kept(share),
    hours,
    effort: nextTests[id].effort,
    cause: told(parts.cause),
    repairClass: told(parts.repairClass),
    counts: parts.counts,
    results: listed.map(({ seen, chance, left }) => ({
      seen: seen.length === 0 ? "none of these" : seen.map(evidenceTitle).join("; "),
      chance: kept(chance),
      left: kept(left),
    })),
    rarer: parts.results.length - listed.length,
  };
}

/** The tests that this engine can take, by what each is expected to settle for its hours. */
function gainsOf(
  { hypotheses, asked, cylinder }: CylinderDiagnosis,
  { model, wetTested = false, table = tableFor(model) }: Pick<NextStepsInput, "model" | "wetTested" | "table">,
): readonly TestGain[] {
  const canShow = (row: EvidenceId) => isPossible(row, model, cylinder);
  return testGains(hypotheses, { table, asked: asked.filter((question) => question !== "wet"), canShow }).filter(
    ({ id }) => fits(id, model, cylinder) && !(id === "wet" && wetTested),
  );
}

export interface SettlingStep {
  readonly title: string;
  /** Causes that its outcome speaks for or against. */
  readonly causes: readonly Cause[];
  /** Share of what is open that it is expected to settle, 0 to 1, and the same in words with its hours. */
  readonly share: number;
  readonly words: string;
  readonly gain: StepGain;
}

/**
 * What would settle the causes of one cylinder: each step that this engine can take and that is worth its hours, the one
 * that settles most for them first. Empty where there is nothing to settle: a sound cylinder, or one never tested.
 */
export function settlingSteps(
  diagnosis: CylinderDiagnosis,
  { model, band = null, ...rest }: NextStepsInput,
): readonly SettlingStep[] {
  if (band === null || diagnosis.causes[0]?.because.includes(notTestedYet)) return [];
  if (band === "sound" && diagnosis.testSetUp < worthPursuing * 2) return [];
  const open = new Set(
    diagnosis.causes.filter(({ probability }) => probability >= worthNaming).map(({ cause }) => cause),
  );
  return gainsOf(diagnosis, { model, ...rest }).flatMap((gain) => {
    const told = openCauses(gain.id, (cause) => open.has(cause));
    if (told.length === 0 || gain.share < worthTesting) return [];
    const { title } = step(gain.id, diagnosis, model);
    return [{ title, causes: told, share: gain.share, words: gainWords(gain), gain: gainOf(gain) }];
  });
}

/** A step that this engine cannot take, or that would mislead on it. */
function fits(id: NextTestId, model: EngineModel, cylinder: number): boolean {
  // Oil in a diesel's small chamber can lock it, unless its maker allows it; on opposed engines it runs to one side.
  if (id === "wet") {
    // Where compression is not judged there is a decompressor, or nothing to hold the rise against.
    if (model.compression === undefined) return false;
    return (fuelKind(model) !== "diesel" || model.wetTest === true) && model.layout !== "opposed";
  }
  if (id === "joint") return hasBridge(model, cylinder);
  return id !== "coolant" || model.cooling !== "air";
}

/** Separate heads or barrels share no gasket, and a single cylinder has no next one. */
const hasBridge = (model: EngineModel, cylinder: number): boolean =>
  model.neighbours.some((pair) => pair.includes(cylinder));

/** Findings that need a next cylinder beyond a gasket bridge, or a coolant. */
const overBridge: ReadonlySet<EvidenceId> = new Set(["heard-neighbour", "neighbours-leak-together"]);

function isPossible(row: EvidenceId, model: EngineModel, cylinder: number): boolean {
  if (overBridge.has(row)) return hasBridge(model, cylinder);
  return row !== "heard-coolant" || model.cooling !== "air";
}

/** A fuel that is not told, or not known here, may be a diesel's: what hurts or harms on a diesel is said then too. */
const fuelKind = ({ fuel }: EngineModel): "petrol" | "diesel" | "unknown" =>
  fuel === "petrol" || fuel === "diesel" ? fuel : "unknown";

const crankingCautionFor = (model: EngineModel): string =>
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
const testCautionFor = (model: EngineModel): string =>
  model.leakDown === undefined ? crankingCautionFor(model) : leakDownCaution;

/** Each caution is said once, at the first step that needs it. */
function cautionsOnce(steps: readonly NextStep[]): NextStep[] {
  const said = new Set<string | null>();
  return steps.map((step) => {
    if (said.has(step.caution)) return { ...step, caution: null };
    said.add(step.caution);
    return step;
  });
}

const leakDownWay =
  "After a warm run; tester zeroed, piston at top dead centre on compression, coming up in running direction, crank held.";
const compressionWay =
  "Engine warm, throttle wide open, all plugs out, battery charged; the same number of strokes for each cylinder.";

/** Of one cylinder alone what joins the gauge to it is looked at first. */
const adaptorWay = "Adaptor, hose and plug threads first: clean, tight and well seated.";

const repeatStep =
  (model: EngineModel) =>
  ({ measure, cylinder }: { readonly measure: Measure; readonly cylinder: number | null }): NextStep => {
    const isLeakDown = measure === "leak-down";
    return {
      title: `Repeat the ${isLeakDown ? "leak-down" : "compression"} test of ${cylinder === null ? "all cylinders" : `cylinder ${cylinder}`}`,
      detail: isLeakDown ? leakDownWay : cylinder === null ? compressionWay : `${adaptorWay} ${compressionWay}`,
      caution: isLeakDown ? leakDownCaution : crankingCautionFor(model),
    };
  };

function step(
  id: NextTestId,
  { cylinder, oddCompression }: Pick<CylinderDiagnosis, "cylinder" | "oddCompression">,
  model: EngineModel,
): NextStep {
  switch (id) {
    case "re-test":
      if (oddCompression) return repeatStep(model)({ measure: "compression-dry", cylinder });
      return {
        title: `Repeat the test of cylinder ${cylinder}`,
        detail: leakDownWay,
        caution: leakDownCaution,
      };
    case "clearance":
      return {
        title: "Check and adjust the valve clearance, then test again",
        detail: `Cylinder ${cylinder}: the cheapest cure comes before a valve job is booked. A clearance that is too tight holds the valve off its seat.`,
        caution: leakDownCaution,
      };
    case "listen":
      return {
        title: "Leak-down again, listening at the port or manifold",
        detail: `Silence at the tail pipe proves nothing: air leaves by any leak before it. Listen by tube, engine stopped.${
          model.aircraft ? " Tap the valve stem and read again." : ""
        }`,
        caution: leakDownCaution,
      };
    case "wet":
      return {
        title: `Wet compression test of cylinder ${cylinder}`,
        detail: `About 15 ml of oil, no more: a rise of 10 to 15 % or more points to rings or bore.${
          fuelKind(model) === "unknown" ? " Not on a diesel unless its manual allows it." : ""
        }`,
        caution: crankingCautionFor(model),
      };
    case "blow-by":
      return {
        title: "Measure the blow-by and look up the oil use",
        detail: "Both rise with worn rings; steady figures speak against them.",
        caution: null,
      };
    case "coolant":
      return {
        title: "Test the coolant for combustion gas",
        detail: `${model.cooling === "liquid" ? "Then" : "Where the engine is liquid-cooled; then"} put the cold cooling system under pressure.`,
        caution: coolantCaution,
      };
    case "joint": {
      const neighbours = model.neighbours.flatMap(([a, b]) => (a === cylinder ? [b] : b === cylinder ? [a] : []));
      return {
        title: `Leak-down ${cylinderWords([cylinder, ...neighbours].sort((a, b) => a - b))}`,
        detail: "Listen at the next plug hole with the other cylinder's valves shut, and along the joint.",
        caution: leakDownCaution,
      };
    }
    case "lift":
      return {
        title: "Measure the valve lift",
        detail: `Cylinder ${cylinder}${model.cylinders === 1 ? " against its maker’s figure" : " against the others"}: a worn cam lobe, rocker or lifter shows at once.`,
        caution: crankingCautionFor(model),
      };
    case "timing":
      return {
        title: "Check the timing marks and the inlet",
        detail: `Marks in line, throttle and choke wide open, no blocked inlet; then repeat the ${model.compression === undefined ? "leak-down" : "compression"} test.`,
        caution: crankingCautionFor(model),
      };
    case "borescope":
      return {
        title: `Look into cylinder ${cylinder} with a borescope`,
        detail: "Wall, crown and valves: scoring, a damaged crown, an uneven heat pattern.",
        caution: crankingCautionFor(model),
      };
  }
}
