import { checkKey, judgementKey, meterKey, repairKey, testKey } from "../../lib/intake/fact-keys.ts";
import type { Told } from "../../lib/outtake/contract-csv.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import type { FleetFacts, ReadingFact, TestFact, UnitFact } from "../../lib/schema/facts.ts";

/** Facts that somebody thinks of giving: whole engine models, where depots lie, what happened to units. */
export interface FactsChange {
  readonly models?: readonly EngineModel[];
  /** Without an altitude nothing is told of the depot, so what is known of it stays. */
  readonly depots?: readonly { readonly depot: string; readonly altitudeM: number | null }[];
  /** Facts of units, each over what is known of the same thing. */
  readonly told?: Omit<Told, "depots">;
  /** Whether what is blank in the tests that are told becomes blank (`FormFacts.tellsWhole`). */
  readonly tellsWhole?: boolean;
}

/** Units that the facts tell of. */
export const unitsTold = ({
  units = [],
  tests = [],
  repairs = [],
  meterReadings = [],
  checks = [],
  judgements = [],
}: Told) => [...new Set([units, tests, repairs, meterReadings, checks, judgements].flat().map(({ unit }) => unit))];

/** Engine models by their id, as they would stand. */
export const modelsWith = (
  models: ReadonlyMap<string, EngineModel>,
  change: FactsChange = {},
): ReadonlyMap<string, EngineModel> =>
  new Map([...models, ...(change.models ?? []).map((model) => [model.id, model] as const)]);

/** The facts as they would stand; nothing is kept. */
export function laidOver(facts: FleetFacts, change: FactsChange = {}): FleetFacts {
  const told = new Map((change.depots ?? []).map((depot) => [depot.depot, depot]));
  const depots = facts.depots.map((fact) => ({
    ...fact,
    altitudeM: told.get(fact.depot)?.altitudeM ?? fact.altitudeM,
  }));
  const known = new Set(depots.map(({ depot }) => depot));
  const fresh = [...told.values()].filter(({ depot }) => !known.has(depot));
  const models = new Map(facts.models.map((model) => [model.id, model]));
  return {
    ...withUnits(facts, change.told ?? {}, change.tellsWhole === true),
    models: [...modelsWith(models, change).values()],
    depots: [...depots, ...fresh.map((depot) => ({ ...depot, file: "", line: 1 }))],
  };
}

/** Where a fact that is only thought of was read. */
const nowhere = { file: "", line: 1 } as const;

function withUnits(facts: FleetFacts, told: Told, isWhole: boolean): FleetFacts {
  return {
    ...facts,
    units: laid(facts.units, told.units, ({ unit }) => unit, unitOver),
    tests: laid(facts.tests, told.tests?.map(asTest), testKey, isWhole ? wholeOver : testOver),
    repairs: laid(facts.repairs, told.repairs, (fact) => `${fact.unit} ${repairKey(fact)}`),
    meterReadings: laid(facts.meterReadings, told.meterReadings, (fact) => `${fact.unit} ${meterKey(fact)}`),
    checks: laid(facts.checks, told.checks, (fact) => `${fact.unit} ${checkKey(fact)}`),
    judgements: laid(facts.judgements, told.judgements, (fact) => `${fact.unit} ${judgementKey(fact)}`),
  };
}

/** Facts with others over those of the same key; `over`: what becomes of one that is known, else the new one whole. */
function laid<F extends { readonly file: string }, T extends object>(
  known: readonly F[],
  told: readonly T[] = [],
  keyOf: (fact: F) => string,
  over: (before: F, after: F) => F = (_, after) => after,
): readonly F[] {
  if (told.length === 0) return known;
  const byKey = new Map(known.map((fact) => [keyOf(fact), fact]));
  for (const one of told) {
    // What is told lacks the place that it was read from alone.
    const fact = { ...nowhere, ...one } as unknown as F;
    const before = byKey.get(keyOf(fact));
    byKey.set(keyOf(fact), before === undefined ? fact : over(before, fact));
  }
  return [...byKey.values()];
}

const unitOver = (before: UnitFact, after: UnitFact): UnitFact => ({ ...before, ...notBlank(after) });

const notBlank = <F extends object>(fact: F): Partial<F> =>
  Object.fromEntries(Object.entries(fact).filter(([, value]) => value !== null)) as Partial<F>;

type ToldTest = NonNullable<Told["tests"]>[number];

const asTest = (test: ToldTest): TestFact => ({
  ...test,
  file: nowhere.file,
  readings: test.readings.map((reading): ReadingFact => ({ ...reading, line: nowhere.line })),
});

/** As `db/test-layers.ts` lays tests over each other. */
const testOver = (before: TestFact, after: TestFact): TestFact => ({
  ...before,
  ...notBlank(after),
  readings: readingsOver(before, after, (was, is) => {
    const { supply, firstStroke, ...rest } = was;
    // These two are read in the unit of the value.
    const known = was.valueUnit === is.valueUnit ? was : { ...rest, supply: null, firstStroke: null };
    return { ...known, ...notBlank(is), heardAt: is.heardAt.length === 0 ? was.heardAt : is.heardAt };
  }),
});

const wholeOver = (before: TestFact, after: TestFact): TestFact => ({
  ...after,
  readings: readingsOver(before, after, (_, is) => is),
});

function readingsOver(
  before: TestFact,
  after: TestFact,
  over: (was: ReadingFact, is: ReadingFact) => ReadingFact,
): readonly ReadingFact[] {
  const readings = new Map(before.readings.map((reading) => [reading.cylinder, reading]));
  for (const reading of after.readings) {
    const was = readings.get(reading.cylinder);
    readings.set(reading.cylinder, was === undefined ? reading : over(was, reading));
  }
  return [...readings.values()].sort((a, b) => a.cylinder - b.cylinder);
}
