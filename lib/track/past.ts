import { addDays } from "../calendar.ts";
import { madeAfter } from "../condition/series.ts";
import { fingerprintOf } from "../fingerprint.ts";
import type { FleetFacts, IsoDate } from "../schema/facts.ts";
import type { RepairScope } from "../schema/words.ts";
import type { EngineHistory } from "../sealing/types.ts";
import { withdrawnBy } from "../withdrawn.ts";

/** Units of one kind (engine model and meter unit) whose past is gone through at most: more cost time but tell no more. */
const unitsOfKind = 100;
/** Dates at which the pools of the past are fitted at most. A forecast takes those of the last one before it. */
const mostPoolDates = 8;

/**
 * The facts that may be looked at from the past, to be cut at a date by `indexFleet`. What carries no date of its own is
 * left out where it may have become known later: that a unit was stopped, sold, or which engine its row names; and that
 * somebody set a test aside or accepted it. A test that was withdrawn was never made, so nobody ever knew it. Where depots
 * lie and what limits an engine model has is taken as if it had always been known.
 */
export function asFromThePast(facts: FleetFacts): FleetFacts {
  const withdrawn = withdrawnBy(facts.judgements);
  return {
    ...facts,
    units: facts.units.map((unit) => ({
      ...unit,
      status: null,
      statusReason: null,
      disposalDate: null,
      engineSerial: null,
    })),
    tests: facts.tests.flatMap((test) => withdrawn.left(test) ?? []),
    judgements: [],
  };
}

/**
 * The facts as they were known when the unit's tests of the day were made, before it was opened. Where all of them stand
 * before the repairs of that day (test, then open: the usual order), the repairs are left out, for the forecast that led to
 * them did not know them. null: a test of the day checked a repair, or there is none.
 *
 * @param history the engine that was tested
 */
export function factsBeforeOpening(
  facts: FleetFacts,
  { tests, repairs }: Pick<EngineHistory, "tests" | "repairs">,
  { unit, date }: { readonly unit: string; readonly date: IsoDate },
): FleetFacts | null {
  const isOfDay = (one: { readonly unit: string; readonly date: IsoDate; readonly scope?: RepairScope }) =>
    one.unit === unit && one.date === date && one.scope !== "engine-swap";
  const opened = repairs.filter(isOfDay);
  if (opened.length === 0) return null;
  const isChecked = tests.some((test) => isOfDay(test) && opened.some((repair) => madeAfter(test, repair)));
  return isChecked ? null : { ...facts, repairs: facts.repairs.filter((repair) => !isOfDay(repair)) };
}

/** The units to go through: of each kind at most a hundred, always the same ones however many others come in. */
export function unitsToJudge(kinds: Iterable<readonly string[]>): string[] {
  return [...kinds].flatMap((units) =>
    units.length <= unitsOfKind
      ? units
      : units
          .map((unit) => ({ unit, place: fingerprintOf(unit) }))
          .toSorted((a, b) => (a.place < b.place ? -1 : a.place > b.place ? 1 : 0))
          .slice(0, unitsOfKind)
          .map(({ unit }) => unit),
  );
}

/**
 * The facts in parts that no engine reaches out of: units that name a serial number in common belong together. Each part
 * has all models and depots; parts ascend by their first unit. `units`: only parts with any of these.
 */
export function factParts(facts: FleetFacts, units?: readonly string[]): FleetFacts[] {
  const parent = new Map<string, string>();
  const rootOf = (key: string): string => {
    let root = key;
    for (let up = parent.get(root); up !== undefined && up !== root; up = parent.get(root)) root = up;
    parent.set(key, root);
    return root;
  };
  const join = (unit: string, serial: string | null) => {
    const root = rootOf(`unit ${unit}`);
    if (serial !== null) parent.set(rootOf(`engine ${serial}`), root);
  };
  for (const { unit, engineSerial } of facts.units) join(unit, engineSerial);
  for (const { unit, engineSerial } of facts.tests) join(unit, engineSerial);
  for (const { unit, engineSerial } of facts.repairs) join(unit, engineSerial);
  const all = new Set([
    ...[facts.units, facts.tests, facts.repairs, facts.meterReadings, facts.checks].flatMap((some) =>
      some.map(({ unit }) => unit),
    ),
  ]);
  const wanted = units === undefined ? null : new Set(units.map((unit) => rootOf(`unit ${unit}`)));
  const parts = new Map<string, Parts>();
  for (const unit of [...all].toSorted()) {
    const root = rootOf(`unit ${unit}`);
    if (wanted?.has(root) === false || parts.has(root)) continue;
    parts.set(root, { units: [], tests: [], repairs: [], meterReadings: [], checks: [], judgements: [] });
  }
  const into = (unit: string) => parts.get(rootOf(`unit ${unit}`));
  for (const fact of facts.units) into(fact.unit)?.units.push(fact);
  for (const fact of facts.tests) into(fact.unit)?.tests.push(fact);
  for (const fact of facts.repairs) into(fact.unit)?.repairs.push(fact);
  for (const fact of facts.meterReadings) into(fact.unit)?.meterReadings.push(fact);
  for (const fact of facts.checks) into(fact.unit)?.checks.push(fact);
  for (const fact of facts.judgements) into(fact.unit)?.judgements.push(fact);
  return [...parts.values()].map((part) => ({ models: facts.models, depots: facts.depots, ...part }));
}

type Listed = Omit<FleetFacts, "models" | "depots">;
type Parts = { [K in keyof Listed]: Listed[K][number][] };

/** Several parts as one. */
export function joinedFacts(parts: readonly FleetFacts[], { models, depots }: FleetFacts): FleetFacts {
  return {
    models,
    depots,
    units: parts.flatMap((part) => part.units),
    tests: parts.flatMap((part) => part.tests),
    repairs: parts.flatMap((part) => part.repairs),
    meterReadings: parts.flatMap((part) => part.meterReadings),
    checks: parts.flatMap((part) => part.checks),
    judgements: parts.flatMap((part) => part.judgements),
  };
}

/** The ends of quarters between the first test and the as-of date at which pools are fitted: evenly, at most eight. */
export function poolDates(facts: FleetFacts, asOf: IsoDate): IsoDate[] {
  let first = asOf;
  for (const { date } of facts.tests) if (date < first) first = date;
  const ends: IsoDate[] = [];
  for (let year = Number(first.slice(0, 4)); year <= Number(asOf.slice(0, 4)); year++) {
    for (const next of [`${year}-04-01`, `${year}-07-01`, `${year}-10-01`, `${year + 1}-01-01`]) {
      const end = addDays(next, -1);
      if (end >= first && end < asOf) ends.push(end);
    }
  }
  return evenly(ends, mostPoolDates);
}

/** At most so many of the items, spread evenly, the last among them. */
export function evenly<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, i) => items[Math.ceil(((i + 1) * items.length) / most) - 1] as T);
}
