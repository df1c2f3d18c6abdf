import type { CauseShare } from "../schema/assessment.ts";
import type { Place } from "../schema/words.ts";
import type { Question } from "./evidence-row.ts";
import type { TwoCauses } from "./two-causes.ts";

/** Whose fault the loss of sealing of one cylinder mostly is. The three shares add up to 1. */
export interface CylinderDiagnosis {
  readonly cylinder: number;
  /** All causes, most probable first, with the reasons for and against in words. */
  readonly causes: readonly CauseShare[];
  readonly topEnd: number;
  readonly bottomEnd: number;
  readonly testSetUp: number;
  /** Two causes that perhaps act at once; null: hardly. */
  readonly together: TwoCauses | null;
  /** Places where air was heard in the cylinder's recent usable leak-down tests. */
  readonly heardAt: readonly Place[];
  /** Probability of each cause alone and of each two at once (lib/cause/hypotheses.ts); sums to 1. */
  readonly hypotheses: readonly number[];
  /** What its tests and checks have asked already. */
  readonly asked: readonly Question[];
  /** One compression reading alone is low, and leakage does not explain it: that test is made again first. */
  readonly oddCompression: boolean;
}
