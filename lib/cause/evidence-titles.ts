import type { EvidenceId } from "../schema/evidence-ids.ts";
import { causes } from "../schema/words.ts";
import { checkWords } from "../wording.ts";
import { causeLabel } from "./words.ts";

/** How the rows of the evidence table are called where they stand by themselves: "air heard at the exhaust". */

const own = {
  "heard-crankcase": "air heard at the crankcase",
  "heard-inlet": "air heard at the inlet",
  "heard-exhaust": "air heard at the exhaust",
  "heard-coolant": "bubbles in the coolant",
  "heard-neighbour": "air heard at the next cylinder",
  "heard-neighbour-far": "air heard at a cylinder that shares no gasket bridge",
  "heard-from-next": "the next cylinder was heard here, and both leak",
  "heard-nowhere": "leakage raised, no air heard anywhere",
  "leakage-sound": "leakage below the watch level",
  "held-over-tests": "leakage raised in test after test",
  "all-raised-alike": "all cylinders leak alike",
  "rose-together": "leakage rose in all cylinders alike",
  "stands-out": "leaks more than the other cylinders",
  "sudden-step": "leakage stepped up between two tests",
  "fast-own-rise": "leakage rose fast in this cylinder alone",
  "slow-own-rise": "leakage rose slowly in this cylinder alone",
  "always-apart": "always leaked more than the others, and parts no further",
  "neighbours-leak-together": "two neighbours leak together, the others do not",
  "neighbours-low-together": "compression of two neighbours low together",
  "wet-rise": "wet test rose",
  "wet-no-rise": "wet test did not help",
  "low-compression-one": "compression of one cylinder low",
  "compression-sudden-fall": "compression of one cylinder fell between two tests",
  "compression-fast-fall": "compression of one cylinder fell fast",
  "compression-slow-fall": "compression of one cylinder fell slowly",
  "low-compression-normal-leakage": "compression of one cylinder low, leakage does not explain it",
  "compression-fall-unexplained": "compression of one cylinder fell, leakage does not explain it",
  "compression-odd-reading": "one odd compression reading, leakage does not explain it",
  "all-low": "compression of all cylinders low",
  "all-low-normal-leakage": "compression of all cylinders low, leakage normal",
  "high-leakage-good-compression": "leakage high, compression good",
  "near-total-leak": "nearly all the air went through",
  "first-stroke-builds-up": "first stroke low, then it built up",
  "first-stroke-stays-low": "first stroke low, and it did not build up",
  "reading-doubted": "the cylinder’s last reading is doubtful",
  "test-doubted": "the last test is doubtful",
  "not-tested": "not tested yet",
  "top-end-renewed": "top end renewed",
  "bottom-end-renewed": "rings, pistons and bores renewed",
  "unmoved-by-top-end": "leakage the same after a top-end repair",
  "unmoved-by-bottom-end": "leakage the same after a bottom-end repair",
  "improved-alone": "leakage of this cylinder fell, no repair on file",
  "improved-all": "leakage of all cylinders fell, no repair on file",
} as const satisfies Partial<Record<EvidenceId, string>>;

/** The name of a row. */
export function evidenceTitle(id: EvidenceId): string {
  if (id in own) return own[id as keyof typeof own];
  const named = causes.find((cause) => id === `check-names-${cause}`);
  if (named !== undefined) return `a check names it: ${causeLabel(named).toLowerCase()}`;
  const result = id.endsWith("-clear") ? "clear" : "fault";
  const check = Object.keys(checkWords).find((kind) => id === `check-${kind}-${result}`) as keyof typeof checkWords;
  return `${checkWords[check]}: ${result}`;
}
