import type { EvidenceId } from "../schema/evidence-ids.ts";
import type { EvidenceRow, Likelihoods } from "./evidence-row.ts";
import { checkRows } from "./rows-checks.ts";
import { compressionRows } from "./rows-compression.ts";
import { heardRows } from "./rows-heard.ts";
import { houseRows } from "./rows-house.ts";
import { leakageRows } from "./rows-leakage.ts";

/**
 * The evidence table: what may be seen in an engine's tests, and how likely each finding is under each cause. Bayes'
 * rule does the rest (lib/cause/bayes.ts). Only the ratios within a row matter to one diagnosis; how far a row is to be
 * believed in one case (how high the leakage, how large the rise, how often heard) is its strength, which the observer gives.
 *
 * To sharpen a row for every engine, change its eight numbers; for one engine model, its `evidence` does (lib/cause/table.ts).
 * To add a finding, add its id to lib/schema/evidence-ids.ts, a row here and an observer that reports it.
 */
const rows: Readonly<Record<EvidenceId, EvidenceRow>> = {
  ...heardRows,
  ...leakageRows,
  ...compressionRows,
  ...houseRows,
  ...checkRows,
};
export const evidence = rows;

/** The rows by subject, as a person reads the table. */
export const evidenceGroups: readonly { readonly title: string; readonly ids: readonly EvidenceId[] }[] = [
  { title: "Where air was heard", ids: idsOf(heardRows) },
  { title: "How much leaks, and how it came there", ids: idsOf(leakageRows) },
  { title: "What compression says", ids: idsOf(compressionRows) },
  { title: "The test itself, and what was repaired", ids: idsOf(houseRows) },
  { title: "Other checks", ids: idsOf(checkRows) },
];

function idsOf<K extends EvidenceId>(of: Readonly<Record<K, EvidenceRow>>): readonly K[] {
  return Object.keys(of) as K[];
}

/**
 * Shares before anything is seen, in the order of `causes`. Rings and bores lead because every engine wears them;
 * exhaust valves come next because they run hottest; a fault of the test itself is kept small, as condition has already
 * set aside the tests that look wrong. (J)
 */
export const priors: Likelihoods = [0.46, 0.06, 0.07, 0.16, 0.08, 0.02, 0.07, 0.08];

/**
 * Chance, before anything is seen, that two causes act at once in one cylinder: about one strip-down in seven shows a second
 * one worth repair. Which two: in proportion to the product of their shares. (J)
 */
export const coexistence = 0.14;

/** Share of the answer that stays with the priors whatever is seen: the table does not know everything. (J) */
export const keptForTheUnknown = 0.03;
