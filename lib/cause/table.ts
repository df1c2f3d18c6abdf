import type { EngineModel } from "../schema/engine-model.ts";
import { type EvidenceId, evidenceIds } from "../schema/evidence-ids.ts";
import { causes } from "../schema/words.ts";
import { type CauseCounts, learnedLikelihood, learnedPriors, noCounts } from "./counts.ts";
import { coexistence, evidence, priors } from "./evidence.ts";
import { hypotheses, togetherLikelihood } from "./hypotheses.ts";

/** The evidence table in force for one engine model: what Bayes' rule multiplies. */
export interface CauseTable {
  /** Of each hypothesis, before anything is seen; sums to 1. */
  readonly priors: readonly number[];
  /** Of each cause alone, before anything is seen; sums to 1. */
  readonly causePriors: readonly number[];
  readonly rows: Readonly<Record<EvidenceId, TableRow>>;
}

export interface TableRow {
  /** P(finding | cause alone), in the order of `causes`. */
  readonly likelihoods: readonly number[];
  /** P(finding | hypothesis), in the order of `hypotheses`. */
  readonly ofHypotheses: readonly number[];
  /** Natural log of `ofHypotheses` against the row's mean under the priors: 0 is "says nothing of it". */
  readonly pulls: readonly number[];
  /**
   * Weight of evidence for each cause alone against all other causes: the natural log of its likelihood ratio. Source:
   * Good, Probability and the Weighing of Evidence (1950).
   */
  readonly weights: readonly number[];
}

/** The likelihoods of a row for one model: what the model's file says goes before the table's own. */
export function startingLikelihoods(id: EvidenceId, model: Pick<EngineModel, "evidence">): readonly number[] {
  const own = model.evidence?.[id]?.likelihoods;
  const { likelihoods } = evidence[id];
  return own === undefined ? likelihoods : causes.map((cause, i) => own[cause] ?? (likelihoods[i] as number));
}

/** What a model's file tells of the table. */
type OwnTable = Pick<EngineModel, "evidence" | "causeShares" | "cooling"> & Partial<Pick<EngineModel, "neighbours">>;

const gasket = causes.indexOf("head-gasket");
/** Of head gaskets that leak, to the coolant, over the bridge to the next cylinder, and outside. (J) */
const gasketLeaks = { coolant: 0.45, bridge: 0.35, outside: 0.2 } as const;

/** The table's own shares, less what cannot be: an air-cooled engine has no coolant, separate barrels no bridge. */
function possibleShares({ cooling, neighbours = [] }: OwnTable): readonly number[] {
  if (cooling !== "air") return priors;
  const left = gasketLeaks.outside + (neighbours.length > 0 ? gasketLeaks.bridge : 0);
  return priors.map((share, i) => (i === gasket ? left * share : share));
}

/**
 * The shares of the causes before anything is seen, in the order of `causes`; sums to 1. A model's own go before the
 * table's; causes that it leaves out share the rest in proportion to the table's, less what cannot be in such an engine.
 */
export function startingShares(model: OwnTable): readonly number[] {
  const own = model.causeShares?.shares ?? {};
  const table = possibleShares(model);
  const given = causes.map((cause) => own[cause] ?? null);
  const total = (some: readonly number[]) => some.reduce((sum, share) => sum + share, 0);
  const named = total(given.map((share) => share ?? 0));
  const open = total(table.filter((_, i) => given[i] === null));
  const all = given.map((share, i) => share ?? ((1 - named) * (table[i] as number)) / open);
  const sum = total(all);
  return all.map((share) => share / sum);
}

/**
 * The table for one engine model: the starting values, or the model's own where it has them, sharpened by what strip-downs
 * of that model found (lib/cause/counts.ts).
 */
function causeTable(model: OwnTable, counts: CauseCounts = noCounts): CauseTable {
  const learned = learnedPriors(startingShares(model), coexistence, counts);
  const all = hypothesisPriors(learned.causes, learned.coexistence);
  const rows = Object.fromEntries(
    evidenceIds.map((id) => {
      const likelihoods = startingLikelihoods(id, model).map((start, cause) =>
        learnedLikelihood(start, counts, id, cause),
      );
      return [id, rowOf(id, likelihoods, all, learned.causes)];
    }),
  ) as Record<EvidenceId, TableRow>;
  return { priors: all, causePriors: learned.causes, rows };
}

const tables = new WeakMap<CauseCounts, Map<string, CauseTable>>();

/** The table of a model under these counts; worked out once for the same two. */
export function tableFor(model: OwnTable, counts: CauseCounts = noCounts): CauseTable {
  const ofCounts = tables.get(counts) ?? new Map<string, CauseTable>();
  tables.set(counts, ofCounts);
  // A model comes as another object with each part of the fleet: what it says is what tells one table from another.
  const key = JSON.stringify([model.evidence ?? null, model.causeShares ?? null, possibleShares(model)[gasket]]);
  const known = ofCounts.get(key);
  if (known !== undefined) return known;
  const made = causeTable(model, counts);
  ofCounts.set(key, made);
  return made;
}

/** Priors of every hypothesis; those of one cause sum to `1 - together`, those of two to `together`. */
function hypothesisPriors(single: readonly number[], together: number): readonly number[] {
  const raw = hypotheses.map(([a, b]) => (b === undefined ? 0 : (single[a] as number) * (single[b] as number)));
  const rawTotal = raw.reduce((sum, value) => sum + value, 0);
  return hypotheses.map(([a, b], h) =>
    b === undefined ? (1 - together) * (single[a] as number) : (together * (raw[h] as number)) / rawTotal,
  );
}

function rowOf(
  id: EvidenceId,
  likelihoods: readonly number[],
  all: readonly number[],
  single: readonly number[],
): TableRow {
  const { kind } = evidence[id];
  const ofHypotheses = hypotheses.map(([a, b]) =>
    b === undefined ? (likelihoods[a] as number) : togetherLikelihood(kind, likelihoods, a, b),
  );
  const mean = ofHypotheses.reduce((sum, value, h) => sum + value * (all[h] as number), 0);
  const whole = likelihoods.reduce((sum, value, i) => sum + value * (single[i] as number), 0);
  const weights = likelihoods.map((value, i) => {
    const own = single[i] as number;
    return Math.log(value / ((whole - own * value) / (1 - own)));
  });
  return { likelihoods, ofHypotheses, pulls: ofHypotheses.map((value) => Math.log(value / mean)), weights };
}
