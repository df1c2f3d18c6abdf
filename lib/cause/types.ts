import type { CauseShare } from "../schema/assessment.ts";
import type { Place } from "../schema/words.ts";

/** Whose fault the loss of sealing of one cylinder mostly is. The three shares add up to 1. */
export interface CylinderDiagnosis {
  readonly cylinder: number;
  /** All causes, most probable first, with the reasons for and against in words. */
  readonly causes: readonly CauseShare[];
  readonly topEnd: number;
  readonly bottomEnd: number;
  readonly testSetUp: number;
  /** Places where air was heard in the cylinder's recent usable leak-down tests. */
  readonly heardAt: readonly Place[];
}
