import type { EvidenceId } from "./evidence-ids.ts";
import type { IsoDate } from "./facts.ts";
import type { Cause, MeterUnit, RepairScope } from "./words.ts";

/**
 * One cylinder that a repair opened: what was known of it before that day, and what was found. Kept as evidence and not as
 * a verdict, so that a sharper table can be asked again what it would have said.
 */
export interface StripDown {
  readonly engine: string;
  /** The unit that the engine was in. */
  readonly unit: string;
  readonly engineModel: string;
  readonly meterUnit: MeterUnit;
  readonly date: IsoDate;
  readonly cylinder: number;
  readonly scope: RepairScope;
  /** Empty: opened and found sound. */
  readonly found: readonly Cause[];
  /** It had been tested before that day. */
  readonly tested: boolean;
  /** Rows of the evidence table that were seen before that day, how clearly, and the causes renewed since (as bits). */
  readonly seen: readonly { readonly id: EvidenceId; readonly strength: number; readonly renewed: number }[];
  /** Questions (lib/cause/evidence-row.ts) that its tests and checks had asked before that day. */
  readonly asked: readonly string[];
}
