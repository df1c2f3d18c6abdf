import { causes } from "../schema/words.ts";
import { type EvidenceId, evidence, evidenceIds, keptForTheUnknown, priors } from "./evidence.ts";
import { causeBit } from "./words.ts";

/** A row of the evidence table seen in one cylinder. */
export interface Finding {
  readonly id: EvidenceId;
  /** Exponent of the row's likelihoods: 0 says nothing, 1 is one clear sight of it, above 1 seen again. */
  readonly strength: number;
  /** What the row's words leave open; numbers are written out only when the finding is told. */
  readonly slots: Readonly<Record<string, string | number>>;
  /** Causes renewed since it was seen. */
  readonly renewed: number;
}

export interface Posterior {
  /** In the order of `causes`; sums to 1. */
  readonly shares: readonly number[];
  /** For each finding, how far it moves each cause: natural log of its likelihood against the prior mean. */
  readonly pulls: readonly (readonly number[])[];
}

const setUpBit = causeBit("test-set-up");
const bits = causes.map(causeBit);

/** Natural log of each likelihood against the row's mean under the priors: 0 is "says nothing of this cause". */
const centred = new Map<EvidenceId, readonly number[]>(
  evidenceIds.map((id) => {
    const { likelihoods } = evidence[id];
    const total = priors.reduce((sum, prior) => sum + prior, 0);
    const mean = likelihoods.reduce((sum, likelihood, i) => sum + likelihood * (priors[i] ?? 0), 0) / total;
    return [id, likelihoods.map((likelihood) => Math.log(likelihood / mean))];
  }),
);

/**
 * Shares of the causes by Bayes' rule with tempered likelihoods: prior × Π likelihood^strength, normalised, and a
 * small part kept at the priors (`keptForTheUnknown`).
 *
 * A finding from before a repair says nothing of the renewed parts nor of the set-up of a later test; what it said for
 * the parts that stayed still holds, but it may not tell against them either: the leak that outshone them is mended.
 *
 * Misleads where findings of different rows hang together more than their strengths allow for; shares are then too
 * sure of themselves. Throws where a strength is negative or not finite. Method: Bayes 1763; tempering as in power posteriors (exponent below 1 for repeated evidence).
 */
export function posterior(findings: readonly Finding[]): Posterior {
  const logs = priors.map(Math.log);
  const pulls = findings.map((finding) => {
    const row = centred.get(finding.id);
    if (row === undefined) throw new Error(`no row ${finding.id} in the evidence table`);
    if (!(finding.strength >= 0 && Number.isFinite(finding.strength))) {
      throw new RangeError(`strength ${finding.strength} of ${finding.id} is no exponent`);
    }
    return row.map((value, i) => {
      let pull = value * finding.strength;
      if (finding.renewed !== 0) {
        pull = ((finding.renewed | setUpBit) & (bits[i] ?? 0)) !== 0 ? 0 : Math.max(0, pull);
      }
      logs[i] = (logs[i] ?? 0) + pull;
      return pull;
    });
  });
  const highest = Math.max(...logs);
  const raw = logs.map((log) => Math.exp(log - highest));
  const rawTotal = raw.reduce((sum, value) => sum + value, 0);
  const priorTotal = priors.reduce((sum, prior) => sum + prior, 0);
  const shares = priors.map(
    (prior, i) => (1 - keptForTheUnknown) * ((raw[i] ?? 0) / rawTotal) + keptForTheUnknown * (prior / priorTotal),
  );
  const total = shares.reduce((sum, share) => sum + share, 0);
  return { shares: shares.map((share) => share / total), pulls };
}
