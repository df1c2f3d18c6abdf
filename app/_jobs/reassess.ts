import { lastIssueId, unitNames } from "../../db/assessments.ts";
import { factUnits } from "../../db/fleet-known.ts";
import { assessedVersion, factsVersion, markAssessed } from "../../db/meta.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { applyBiases } from "./apply-biases.ts";
import { asOfDate } from "./as-of.ts";
import { assessUnits, type Reassessment } from "./assess-units.ts";
import { compareAnew } from "./compare-anew.ts";
import { fitDuePools } from "./fit-pools.ts";
import { fleetKinds } from "./fleet-kinds.ts";
import { type LeftOut, leftOutAfter } from "./guarded.ts";
import { asFleetPools, keptPools, kindsDue } from "./kept-pools.ts";
import type { Act, JobControl } from "./progress.ts";

export interface Reassessed {
  /** Units that were assessed anew. */
  readonly units: number;
  /** A sentence for each unit that could not be assessed, without its full stop; it has no report until it can. */
  readonly notAssessed: readonly string[];
  /** Kinds of engine whose pools were fitted anew; all their units were assessed. */
  readonly fittedKinds: number;
}

export interface ToReassess extends Pick<Reassessment, "because"> {
  /** `all`: every unit that anything is known of. */
  readonly units: readonly string[] | "all";
  readonly importId?: string;
  /** `as-due`: by the rule of `kindsDue`; `stay`: only kinds without a pool get one; `all`: every one. */
  readonly pools?: "as-due" | "stay" | "all";
  /** Pools that saw this version of the facts, or a later one, are fitted anew. */
  readonly sinceVersion?: number | null;
}

/**
 * Fits the pools that are due, then assesses the units, and those whose pool is new. Where the comparison of testers then
 * finds an instrument that reads off, or no longer, the units of the kinds tested with it are assessed by that; what the job
 * issued of them before is replaced, so that it issues each unit once. Ended in between, the reports are marked as left
 * behind, and `reassessDay` makes them good under the pools in force.
 */
export async function reassess(
  store: Store,
  { units, because, importId, pools = "as-due", sinceVersion = null }: ToReassess,
  act: Act,
  control: JobControl = {},
): Promise<Reassessed> {
  const version = await factsVersion(store, store.q);
  const settings = await readSettings(store);
  const asOf = asOfDate(settings, act.now);
  const at = act.now.toISOString();
  const { kinds, usualMeterUnits } = await fleetKinds(store);
  const lastId = await lastIssueId(store);
  const before = await keptPools(store);
  const missing = (kind: (typeof kinds)[number]) =>
    !before.some((pool) => pool.engineModel === kind.model.id && pool.meterUnit === kind.meterUnit);
  const due =
    pools === "all" ? kinds : pools === "stay" ? kinds.filter(missing) : kindsDue(kinds, before, { sinceVersion });
  const inForce = asFleetPools(await fitDuePools(store, { asOf, kinds, usualMeterUnits, due, at }, control));
  const common = { asOf, settings, pools: inForce, usualMeterUnits, at, version };
  const wanted = units === "all" ? [...new Set([...(await factUnits(store)), ...(await unitNames(store))])] : units;
  const { done, ...first } = await assessUnits(
    store,
    wanted,
    { ...common, because, importId: importId ?? null },
    control,
  );
  const others = due.flatMap((kind) => kind.units).filter((unit) => !done.has(unit));
  const more = await assessUnits(store, others, { ...common, because: "pool", importId: null }, control);
  await compareAnew(store, control);
  let leftOut: readonly LeftOut[] = [...first.notAssessed, ...more.notAssessed];
  const counted = new Set([...done, ...more.done]);
  const wasUpTo = await assessedVersion(store);
  // The second time only how far an instrument reads off is told anew, by the wear that is then expected.
  for (const fit of [true, false]) {
    const biased = await applyBiases(store, { asOf, kinds, usualMeterUnits, at, fit }, control);
    if (biased === null) break;
    const under = { ...common, pools: asFleetPools(biased.pools), lastId };
    const asked = biased.units.filter((unit) => done.has(unit));
    const again = await assessUnits(store, asked, { ...under, because, importId: importId ?? null }, control);
    const rest = biased.units.filter((unit) => !again.done.has(unit));
    const besides = await assessUnits(store, rest, { ...under, because: "pool", importId: null }, control);
    leftOut = leftOutAfter(leftOut, again, besides);
    for (const unit of besides.done) counted.add(unit);
    await compareAnew(store, control);
    await markAssessed(store, wasUpTo, { whole: true });
  }
  const without = new Set(leftOut.flatMap(({ unit }) => unit ?? []));
  const notAssessed = [...new Set(leftOut.map(({ words }) => words))];
  return { units: counted.size - without.size, fittedKinds: due.length, notAssessed };
}
