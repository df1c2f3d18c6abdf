/** A likelihood for each cause, in the order of `causes`. */
export type Likelihoods = readonly [number, number, number, number, number, number, number, number];

/**
 * What was asked of a cylinder when a row was, or was not, seen. Rows of one question exclude each other, but for places
 * where air is heard, of which there may be several. Only a question that was asked can be learned from: where nobody
 * listened, silence tells nothing.
 */
export const questions = [
  "heard",
  "siblings",
  "course",
  "compression",
  "compression-beside-leakage",
  "compression-fall-beside-leakage",
  "compression-course",
  "wet",
  "first-stroke",
  "check-borescope",
  "check-combustion-gas-in-coolant",
  "check-cooling-pressure",
  "check-valve-clearance",
  "check-valve-lift",
  "check-blow-by",
  "check-oil-use",
] as const;
export type Question = (typeof questions)[number];

/**
 * A row of the evidence table: one finding, and how likely it is under each cause. `words` reach the pages, as do `reason`
 * and `cautions` where the table itself is shown. All likelihoods are judgement (J) on the pattern named in `reason`, whose
 * own standing `mark` tells: S a published manual, P common practice without a source, J engineering judgement, C computed
 * from the flow physics.
 */
export interface EvidenceRow {
  /** For a person; words in braces are filled in by the observer. */
  readonly words: string;
  /** P(finding | cause alone). */
  readonly likelihoods: Likelihoods;
  /** null: strip-downs teach nothing of it, for it hangs on the test or on what was renewed, or names the cause itself. */
  readonly question: Question | null;
  /**
   * How two causes at once show it. `sight`: either may bring it about, so it is seen unless both fail to. `absence`: it is
   * there only while neither upsets it.
   */
  readonly kind: "sight" | "absence";
  readonly mark: "S" | "P" | "J" | "C";
  readonly reason: string;
  readonly cautions: readonly string[];
}
