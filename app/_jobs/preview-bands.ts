import { keptAsOf, unitNames } from "../../db/assessments.ts";
import { unitsNaming } from "../../db/connected.ts";
import { factUnits } from "../../db/fleet-known.ts";
import { windowOf } from "../../db/fleet-row.ts";
import { keptBands, type ToldUnit } from "../../db/kept-bands.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import type { AssessedUnit } from "../../lib/assess.ts";
import type { IsoDate } from "../../lib/schema/facts.ts";
import type { Settings } from "../../lib/schema/settings.ts";
import { asOfDate } from "./as-of.ts";
import { eachUnit } from "./each-unit.ts";
import { type FactsChange, unitsTold } from "./facts-change.ts";
import { fittedPools } from "./fit-pools.ts";
import { fleetKinds } from "./fleet-kinds.ts";
import { asFleetPools, keptPools, kindsDue } from "./kept-pools.ts";
import type { Act, JobControl } from "./progress.ts";

/** What somebody thinks of changing. Models as their schema gives them. */
export interface Change extends FactsChange {
  readonly settings?: Partial<Settings>;
}

/** A unit of which something else would be told. */
export interface ChangedUnit {
  readonly unit: string;
  /** null: nothing is told of it now. */
  readonly before: ToldUnit | null;
  readonly after: ToldUnit;
}

export interface BandsPreview {
  /** The date that both are told for. */
  readonly asOf: IsoDate;
  /** Units that the change touches and that were assessed with it, and those connected with them over shared engines. */
  readonly units: number;
  /** Those of another band or window, ascending by unit. */
  readonly changes: readonly ChangedUnit[];
  /** A sentence for each unit that could not be assessed with it, without its full stop. */
  readonly notAssessed: readonly string[];
  /** Whole sentences: what else to be wary of. */
  readonly warnings: readonly string[];
}

/**
 * What a change would do to the bands and windows of the units that it touches, against what is told of them now: the
 * change is laid over the facts that stand, and pools that its saving would fit anew are fitted with it, in memory.
 * Nothing is kept. Told for the date of the reports that are kept, so that a passing day changes nothing, unless the change
 * is of the date itself.
 */
export async function previewBands(
  store: Store,
  { settings: patch, ...change }: Change,
  { now }: Pick<Act, "now">,
  control: JobControl = {},
): Promise<BandsPreview> {
  const inForce = await readSettings(store);
  const settings = { ...inForce, ...patch };
  const isOtherDay = patch !== undefined && ("asOf" in patch || "timeZone" in patch);
  const asOf = isOtherDay ? asOfDate(settings, now) : ((await keptAsOf(store)) ?? asOfDate(inForce, now));
  const { kinds, usualMeterUnits } = await fleetKinds(store, change);
  const due = kindsDue(kinds, await keptPools(store));
  const fitted = await fittedPools(store, { asOf, kinds, usualMeterUnits, due, change }, control);
  const touched = patch === undefined ? await touchedBy(store, change) : await everyUnit(store);
  const units = [...new Set([...touched, ...due.flatMap((kind) => kind.units)])];
  const after = new Map<string, ToldUnit>();
  const assessed = await eachUnit(
    store,
    units,
    { asOf, settings, pools: asFleetPools(fitted.pools), usualMeterUnits, change },
    { make: toldOf, take: ({ unit, ...told }) => void after.set(unit, told) },
    control,
  );
  const before = await keptBands(store, [...after.keys()]);
  const changes = [...after]
    .map(([unit, told]) => ({ unit, before: before.get(unit) ?? null, after: told }))
    .filter((one) => !isSame(one.before, one.after))
    .sort((a, b) => (a.unit < b.unit ? -1 : 1));
  return {
    asOf,
    units: after.size,
    changes,
    notAssessed: assessed.notAssessed.map(({ words }) => words),
    warnings: [],
  };
}

const touchedBy = async (store: Store, { models = [], depots = [], told = {} }: FactsChange) => [
  ...(await unitsNaming(store, { models: models.map(({ id }) => id), depots: depots.map(({ depot }) => depot) })),
  ...unitsTold(told),
];

const everyUnit = async (store: Store) => [...(await factUnits(store)), ...(await unitNames(store))];

function toldOf({ assessment }: AssessedUnit): ToldUnit & { readonly unit: string } {
  const { unit, band, repairs } = assessment;
  return { unit, band, topEnd: windowOf(repairs.topEnd), bottomEnd: windowOf(repairs.bottomEnd) };
}

/** Their fields come in one order, from the store as from an assessment. */
const isSame = (a: ToldUnit | null, b: ToldUnit): boolean => JSON.stringify(a) === JSON.stringify(b);
