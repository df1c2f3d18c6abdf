import { chunks } from "../../db/chunks.ts";
import { markUnassessed } from "../../db/meta.ts";
import { putPoolsInForce } from "../../db/pools.ts";
import type { Store } from "../../db/store.ts";
import { testerComparisonsKept, testerCoursesOf, testerUnits } from "../../db/unit-courses.ts";
import {
  concernsCourse,
  type IsNotWear,
  instrumentBiases,
  settledBiases,
  stepsToWitness,
} from "../../lib/comparison/instrument-biases.ts";
import { isNotWear, witnessesOf } from "../../lib/comparison/not-wear.ts";
import type { InstrumentBias, SharedStep, TesterCourse } from "../../lib/schema/comparison.ts";
import { judgedMeasures } from "../../lib/schema/words.ts";
import { fittedPools, type PoolFit } from "./fit-pools.ts";
import { type FleetKind, kindKey } from "./fleet-kinds.ts";
import { biasesIn, eachOnce, type KeptWearPool, keptPools, withBiases } from "./kept-pools.ts";
import { breather, type JobControl } from "./progress.ts";

export interface ToApply extends Pick<PoolFit, "asOf" | "kinds" | "usualMeterUnits"> {
  readonly at: string;
  /** Fit the pools anew that they bear on; else they are laid over those in force. */
  readonly fit: boolean;
}

/**
 * Puts the instruments in force that the kept comparisons say to read off, as other versions of the pools of the kinds
 * whose units were tested with them. What is kept already stays as it is while nothing that matters has changed, so that
 * one unit's test costs one unit's work. Gives the pools in force and the units whose pools are other ones now, with the
 * reports marked as left behind until the caller has assessed these; null: everything stays.
 */
export async function applyBiases(
  store: Store,
  { at, fit, ...of }: ToApply,
  control: JobControl = {},
): Promise<{ readonly pools: readonly KeptWearPool[]; readonly units: readonly string[] } | null> {
  const before = await keptPools(store);
  const kept = eachOnce(before.flatMap(biasesIn));
  const comparisons = await testerComparisonsKept(store);
  const kinds = of.kinds.map(({ units }) => units);
  const notWear = await witnessed(store, stepsToWitness(comparisons, kept), kinds);
  const found = settledBiases(instrumentBiases(comparisons, notWear, kept), kept);
  if (JSON.stringify(sorted(found)) === JSON.stringify(sorted(kept))) return null;
  const testedWith = await unitsTestedWith(store, found, control);
  const kindOf = new Map(of.kinds.map((kind) => [kindKey(kind.model.id, kind.meterUnit), kind]));
  const withFound = (pool: KeptWearPool): KeptWearPool => {
    const units = kindOf.get(kindKey(pool.engineModel, pool.meterUnit))?.units ?? [];
    const its = found.filter((bias) => bias.measure === pool.measure && units.some((u) => testedWith(bias).has(u)));
    return withBiases(pool, its);
  };
  const changed = new Set(
    before
      .filter((pool) => withFound(pool).fingerprint !== pool.fingerprint)
      .map(({ engineModel, meterUnit }) => kindKey(engineModel, meterUnit)),
  );
  if (changed.size === 0) return null;
  const due: FleetKind[] = fit ? [...changed].flatMap((key) => kindOf.get(key) ?? []) : [];
  const fitted = fit ? (await fittedPools(store, { ...of, due, biases: found }, control)).pools : before;
  const pools = fitted.map(withFound);
  await markUnassessed(store);
  await putPoolsInForce(store, pools, { at });
  return { pools, units: [...changed].flatMap((key) => kindOf.get(key)?.units ?? []) };
}

/** Says of the steps towards the worse whether they are no wear, by the courses of the units that can tell. */
async function witnessed(
  store: Store,
  steps: readonly SharedStep[],
  kinds: readonly (readonly string[])[],
): Promise<IsNotWear> {
  const notWear = new Set<SharedStep>();
  for (const step of steps) {
    const witnesses = witnessesOf(step, kinds);
    const courses: TesterCourse[] = [];
    for (const measure of judgedMeasures)
      courses.push(...(await testerCoursesOf(store, witnesses, measure)).flatMap((unit) => unit.courses));
    if (isNotWear(step, courses, witnesses)) notWear.add(step);
  }
  return (step) => notWear.has(step);
}

/** Units whose courses are read between two pauses. */
const unitsAtATime = 50;

async function unitsTestedWith(store: Store, found: readonly InstrumentBias[], { signal }: JobControl) {
  const breathe = breather(signal);
  const units = new Map<InstrumentBias, ReadonlySet<string>>();
  for (const measure of new Set(found.map((bias) => bias.measure))) {
    const its = found.filter((bias) => bias.measure === measure);
    for (const part of chunks(await testerUnits(store, measure), unitsAtATime)) {
      const courses = (await testerCoursesOf(store, part, measure)).flatMap((of) => of.courses);
      for (const bias of its) {
        const concerned = courses.filter((course) => concernsCourse(bias, course)).map(({ unit }) => unit);
        units.set(bias, new Set([...(units.get(bias) ?? []), ...concerned]));
      }
      await breathe();
    }
  }
  return (bias: InstrumentBias): ReadonlySet<string> => units.get(bias) ?? new Set();
}

const sorted = (biases: readonly InstrumentBias[]): readonly string[] =>
  biases.map((bias) => JSON.stringify(bias)).toSorted();
