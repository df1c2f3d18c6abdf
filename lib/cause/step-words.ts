import type { EngineModel } from "../schema/engine-model.ts";
import type { StepGain } from "../schema/report.ts";
import type { Measure } from "../schema/words.ts";
import { cylinderWords } from "../wording.ts";
import { coolantCaution, crankingCautionFor, fuelKind, leakDownCaution } from "./cautions.ts";
import type { Question } from "./evidence-row.ts";
import type { NextTestId } from "./next-tests.ts";
import type { CylinderDiagnosis } from "./types.ts";

export interface NextStep {
  readonly title: string;
  readonly detail: string;
  /** What may hurt at this step; null: nothing in particular, or said at a step before it. */
  readonly caution: string | null;
  /** What it is expected to settle, and what that is made of; left out where the step asks for no such test. */
  readonly gain?: StepGain;
}

const leakDownWay =
  "After a warm run; tester zeroed, piston at top dead centre on compression, coming up in running direction, crank held.";
const compressionWay =
  "Engine warm, throttle wide open, all plugs out, battery charged; the same number of strokes for each cylinder.";

/** Of one cylinder alone what joins the gauge to it is looked at first. */
const adaptorWay = "Adaptor, hose and plug threads first: clean, tight and well seated.";

export const repeatStep =
  (model: EngineModel) =>
  ({ measure, cylinder }: { readonly measure: Measure; readonly cylinder: number | null }): NextStep => {
    const isLeakDown = measure === "leak-down";
    return {
      title: `Repeat the ${isLeakDown ? "leak-down" : "compression"} test of ${cylinder === null ? "all cylinders" : `cylinder ${cylinder}`}`,
      detail: isLeakDown ? leakDownWay : cylinder === null ? compressionWay : `${adaptorWay} ${compressionWay}`,
      caution: isLeakDown ? leakDownCaution : crankingCautionFor(model),
    };
  };

/** What one test is and how it is made on this engine. `unasked`: of the questions that it answers, those not on file. */
export function step(
  id: NextTestId,
  { cylinder, oddCompression }: Pick<CylinderDiagnosis, "cylinder" | "oddCompression">,
  model: EngineModel,
  unasked: readonly Question[] = [],
): NextStep {
  const isOnly = (question: Question) => unasked.length === 1 && unasked[0] === question;
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
      if (isOnly("check-oil-use")) {
        return {
          title: "Look up the oil use",
          detail: "It rises with worn rings; a steady figure speaks against them. The blow-by is on file.",
          caution: null,
        };
      }
      if (isOnly("check-blow-by")) {
        return {
          title: "Measure the blow-by",
          detail: "It rises with worn rings; a steady figure speaks against them. The oil use is on file.",
          caution: null,
        };
      }
      return {
        title: "Measure the blow-by and look up the oil use",
        detail: "Both rise with worn rings; steady figures speak against them.",
        caution: null,
      };
    case "coolant":
      if (isOnly("check-cooling-pressure")) {
        return {
          title: "Put the cold cooling system under pressure",
          detail: "A hand pump, and time to see whether it holds. The test for combustion gas is on file.",
          caution: coolantCaution,
        };
      }
      if (isOnly("check-combustion-gas-in-coolant")) {
        return {
          title: "Test the coolant for combustion gas",
          detail: "The engine running; the pressure test of the cooling system is on file.",
          caution: coolantCaution,
        };
      }
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
