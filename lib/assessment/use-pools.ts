import { type Season, seasonBeside, seasonOf } from "../projection/season.ts";
import { ownUse, poolUse, type UsePool } from "../projection/use.ts";
import type { EngineModel } from "../schema/engine-model.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import type { UnitHistory } from "../sealing/types.ts";

export interface KeptUsePool extends UsePool {
  readonly engineModel: string;
  readonly meterUnit: MeterUnit;
  /** Depots whose units have a season of their own, by name, ascending; absent: kept before there were any. */
  readonly depots?: readonly DepotSeason[];
  /** Of units of one class, by its name, ascending; absent: kept before there were any. */
  readonly classes?: readonly (UsePool & { readonly name: string; readonly depots?: readonly DepotSeason[] })[];
}

/** The season of units of one depot, where it parts from that of the others of their kind. */
interface DepotSeason {
  readonly name: string;
  readonly season: Season;
}

/** Units of a depot, and of the others beside it, before they are compared by season. Judgement. */
const fewestOfDepot = 3;

/** Units of a class that must have worked before they say more of one another than all units of the model do. Judgement. */
const fewestOfClass = 3;

/** The use of all units of a kind, and of each class within it of which enough work. */
export function usePoolsOf(
  units: readonly UnitHistory[],
  meterUnit: MeterUnit,
  asOf: IsoDate,
): Pick<KeptUsePool, keyof UsePool | "depots" | "classes"> {
  const poolOf = (some: readonly UnitHistory[], others: Pick<KeptUsePool, "season" | "depots"> | null) => {
    const shown = seasonsOf(some);
    // A class that shows none of its own goes by its kind, and so do its depots.
    const depots = shown.season === null && shown.depots.length === 0 ? (others?.depots ?? []) : shown.depots;
    const season = shown.season ?? others?.season ?? null;
    const uses = some.map((unit) => ownUse(unit.meterPoints, asOf, seasonAt({ season, depots }, unit.depot)));
    return { ...poolUse(uses, meterUnit), season, depots };
  };
  const all = poolOf(units, null);
  const names = [...new Set(units.flatMap((unit) => unit.class ?? []))].toSorted();
  const classes = names.flatMap((name) => {
    const pool = poolOf(
      units.filter((unit) => unit.class === name),
      all,
    );
    return pool.units < fewestOfClass ? [] : [{ name, ...pool }];
  });
  return { ...all, classes };
}

/** The season that units share, and those of the depots that part from it, which then are not of the shared one. */
function seasonsOf(units: readonly UnitHistory[]): { season: Season | null; depots: readonly DepotSeason[] } {
  const pointsOf = (some: readonly UnitHistory[]) => some.map((unit) => unit.meterPoints);
  const names = [...new Set(units.flatMap((unit) => unit.depot ?? []))].toSorted();
  const sides = names
    .map((name) => ({
      name,
      own: units.filter((unit) => unit.depot === name),
      others: units.filter((unit) => unit.depot !== name),
    }))
    .filter(({ own, others }) => Math.min(own.length, others.length) >= fewestOfDepot);
  const depots = sides.flatMap(({ name, own, others }): DepotSeason[] => {
    const season = seasonBeside(pointsOf(own), pointsOf(others), sides.length);
    return season === null ? [] : [{ name, season }];
  });
  const all = seasonOf(pointsOf(units));
  const rest = units.filter((unit) => !depots.some(({ name }) => name === unit.depot));
  const ofRest = depots.length === 0 || rest.length < fewestOfDepot ? null : seasonOf(pointsOf(rest));
  return { season: ofRest ?? all, depots };
}

const seasonAt = (
  { season = null, depots = [] }: Pick<KeptUsePool, "season" | "depots">,
  depot: string | null,
): Season | null => depots.find(({ name }) => name === depot)?.season ?? season;

/**
 * What units like this one say of its use: those of its class and model, else those of its model, else what is usual; its
 * season that of its depot, where this has one of its own.
 */
export function usePoolFor(
  { use }: { readonly use: readonly KeptUsePool[] },
  model: EngineModel,
  meterUnit: MeterUnit,
  unit: { readonly class: string | null; readonly depot: string | null } = { class: null, depot: null },
): UsePool {
  const kind = use.find((p) => p.engineModel === model.id && p.meterUnit === meterUnit);
  const pool: UsePool & Pick<KeptUsePool, "depots"> =
    kind?.classes?.find(({ name }) => name === unit.class) ?? kind ?? poolUse([], meterUnit);
  return { ...pool, season: seasonAt(pool, unit.depot) };
}
