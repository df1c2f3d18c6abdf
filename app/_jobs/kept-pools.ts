import { createHash } from "node:crypto";
import { poolsInForce } from "../../db/pools.ts";
import type { Store } from "../../db/store.ts";
import type { FleetPools, KeptCauses, KeptFamily } from "../../lib/assessment/pools.ts";
import type { KeptUsePool } from "../../lib/assessment/use-pools.ts";
import type { WearPool } from "../../lib/projection/types.ts";
import type { InstrumentBias } from "../../lib/schema/comparison.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import { type FleetKind, kindKey } from "./fleet-kinds.ts";
import { forecastVersion } from "./forecast-version.ts";

/** A pool as the store keeps it: wear, the use of the same kind, what was found in its engines, and what it was fitted on. */
export interface KeptWearPool extends WearPool {
  readonly use: KeptUsePool;
  /** Absent: kept before strip-downs were counted. */
  readonly causes?: KeptCauses;
  /** Of the same measure; absent: kept before there was one. */
  readonly family?: KeptFamily;
  readonly basis: PoolBasis;
  /**
   * What ranges told from it are multiplied by, as past forecasts asked, and its fingerprint without that; absent: they
   * are told as they come.
   */
  readonly width?: { readonly factor: number; readonly plain: string };
  /** Instruments that read off and that units of the kind were tested with, and its fingerprint without; absent: none. */
  readonly biases?: { readonly found: readonly InstrumentBias[]; readonly plain: string };
}

interface PoolBasis {
  /** Tests of the whole kind, beyond the sampled engines. */
  readonly tests: number;
  /** Repairs of the whole kind that tell what was found; absent: kept before they were counted. */
  readonly findings?: number;
  /** A hash of the engine model's limits and all else that it may hang on. */
  readonly model: string;
  /** Version of the visible facts that it has seen. */
  readonly factsVersion: number;
}

const hashOf = (value: unknown): string =>
  createHash("sha256").update(JSON.stringify(value)).digest("hex").slice(0, 16);

/**
 * Of what a pool may hang on, the forms of the models of wear and use among it: a new name or cost, likelihoods or shares of
 * causes, what cools the engine (which says what may leak, not how it wears), or that the model is retired, leave it as it is.
 */
function modelHash({
  name,
  repairs,
  testInterval,
  retired,
  evidence,
  causeShares,
  cooling,
  ...judged
}: EngineModel): string {
  return hashOf([forecastVersion.wear, forecastVersion.use, judged]);
}

/** The pools of one kind, ready to be kept. The fingerprint tells them from any other, save for when they were fitted. */
export function poolsToKeep(
  fitted: FleetPools,
  kind: FleetKind,
  /** `before`: the pools in force, whose factors on ranges stay until a track record asks for others. */
  { factsVersion, before }: { readonly factsVersion: number; readonly before: readonly KeptWearPool[] },
): readonly KeptWearPool[] {
  const [use, causes] = [fitted.use[0], fitted.causes[0]];
  if (use === undefined || causes === undefined) throw new Error(`no pool for ${kind.model.id}`);
  const basis = { tests: kind.tests, findings: kind.findings, model: modelHash(kind.model), factsVersion };
  return fitted.wear.map((pool) => {
    const family = fitted.families?.find((of) => of.measure === pool.measure);
    const fingerprint = hashOf([pool.fingerprint, use, family, basis.tests, basis.model, causes.counts]);
    const last = before.find(
      (of) => of.engineModel === pool.engineModel && of.measure === pool.measure && of.meterUnit === pool.meterUnit,
    );
    const kept = { ...pool, fingerprint, use, causes, ...(family === undefined ? {} : { family }), basis };
    return last === undefined ? kept : told(kept, { factor: widthIn(last), found: biasesIn(last) });
  });
}

/** What ranges told from the pool are multiplied by; 1: told as they come. */
export const widthIn = ({ width }: KeptWearPool): number => width?.factor ?? 1;

/** The pool with another factor on the ranges told from it: another version, with a fingerprint of its own. */
export const withWidth = (pool: KeptWearPool, factor: number): KeptWearPool =>
  told(pool, { factor, found: biasesIn(pool) });

/** Instruments that read off, by which tests of the kind are doubted. */
export const biasesIn = ({ biases }: KeptWearPool): readonly InstrumentBias[] => biases?.found ?? [];

/** The pool with other instruments that read off: likewise another version. */
export const withBiases = (pool: KeptWearPool, found: readonly InstrumentBias[]): KeptWearPool =>
  told(pool, { factor: widthIn(pool), found });

function told(
  { width, biases, ...pool }: KeptWearPool,
  { factor, found }: { readonly factor: number; readonly found: readonly InstrumentBias[] },
): KeptWearPool {
  const plain = width?.plain ?? biases?.plain ?? pool.fingerprint;
  const [isWidened, isBiased] = [factor !== 1, found.length > 0];
  return {
    ...pool,
    fingerprint: isBiased ? hashOf([plain, factor, found]) : isWidened ? hashOf([plain, factor]) : plain,
    ...(isWidened ? { width: { factor, plain } } : {}),
    ...(isBiased ? { biases: { found, plain } } : {}),
  };
}

export const keptPools = (store: Store): Promise<KeptWearPool[]> => poolsInForce<KeptWearPool>(store);

/** Kinds tested with the same instrument carry the same of it. */
export const eachOnce = (found: readonly InstrumentBias[]): readonly InstrumentBias[] => [
  ...new Map(found.map((bias) => [JSON.stringify(bias), bias])).values(),
];

export const asFleetPools = (kept: readonly KeptWearPool[]): FleetPools => ({
  wear: kept,
  use: kept.map((pool) => pool.use),
  // Both measures of a kind carry the same.
  causes: kept.flatMap(({ measure, causes }) => (measure === "leak-down" && causes !== undefined ? [causes] : [])),
  families: kept.flatMap((pool) => pool.family ?? []),
  widths: kept.flatMap((pool) => {
    const { engineModel, measure, meterUnit } = pool;
    return widthIn(pool) === 1 ? [] : [{ engineModel, measure, meterUnit, factor: widthIn(pool) }];
  }),
  biases: eachOnce(kept.flatMap(biasesIn)),
});

/** So much more, or fewer, of the tests that a pool was fitted on, and it is fitted anew. */
const enoughNews = 0.2;
/** So many more, or fewer, strip-downs: one or two alone are not yet a reason to judge a whole kind anew. */
const enoughFindings = 3;

/**
 * The kinds whose pools are to be fitted anew: those without one or without a family, those whose engine model was
 * changed, and those that have at least a fifth more or fewer tests, or strip-downs and three at least, than their pool
 * has seen. `sinceVersion`: also those whose pool was fitted
 * at that version of the facts or later, because what that version brought is gone.
 */
export function kindsDue(
  kinds: readonly FleetKind[],
  kept: readonly KeptWearPool[],
  { sinceVersion = null }: { sinceVersion?: number | null } = {},
): readonly FleetKind[] {
  const basisOf = new Map(kept.map((pool) => [kindKey(pool.engineModel, pool.meterUnit), pool.basis]));
  const withoutFamily = new Set(
    kept.filter((pool) => pool.family === undefined).map((pool) => kindKey(pool.engineModel, pool.meterUnit)),
  );
  return kinds.filter((kind) => {
    const basis = basisOf.get(kindKey(kind.model.id, kind.meterUnit));
    if (basis === undefined || basis.model !== modelHash(kind.model)) return true;
    if (withoutFamily.has(kindKey(kind.model.id, kind.meterUnit))) return true;
    if (sinceVersion !== null && basis.factsVersion >= sinceVersion) return true;
    const seen = basis.findings ?? 0;
    const news = Math.abs(kind.findings - seen);
    if (news >= enoughFindings && news >= enoughNews * seen) return true;
    return kind.tests !== basis.tests && Math.abs(kind.tests - basis.tests) >= enoughNews * basis.tests;
  });
}
