import type { IsoDate } from "../schema/facts.ts";
import type { MeterUnit } from "../schema/words.ts";
import { meterFactor } from "../units.ts";
import { dateWords } from "../wording.ts";
import { cumulativeOnDate } from "./meters.ts";
import { compareText } from "./order.ts";
import { type BenchRepair, cutStay, type Stay } from "./stays.ts";
import type { Fitting } from "./types.ts";

/** A stay on the engine's own wear axis: x = cumulative · factor + offset. */
export interface PlacedStay {
  readonly stay: Stay;
  readonly factor: number;
  readonly offset: number;
}

export interface JoinedEngine {
  readonly engine: string;
  readonly serial: string | null;
  /** That of the unit it was in last. */
  readonly meterUnit: MeterUnit;
  /** Ascending by date; at least one. */
  readonly stays: readonly PlacedStay[];
  readonly benchRepairs: { readonly repair: BenchRepair; readonly x: number }[];
}

const meterKind = (stay: Stay) => (stay.timeline.meterUnit === "h" ? "h" : "distance");

const compareStays = (a: Stay, b: Stay) =>
  compareText(a.fromDate ?? "", b.fromDate ?? "") ||
  compareText(a.timeline.unit, b.timeline.unit) ||
  a.fromCumulative - b.fromCumulative;

/**
 * Joins the stays of each serial number to one life: the wear meter goes on at the next unit where it stood when the
 * engine left the last one; km and miles are converted to the unit that it is in now. The first stay is anchored so that
 * x is the unit's own continuous meter.
 *
 * Where the records leave the engine in two units at once: if nothing names it in the first unit after it was seen in
 * the second, it left then, and what runs in the first unit since is an engine not known; else both histories are kept
 * apart. Between hours and a distance no wear can be carried over: a history of its own starts. Each with a warning.
 */
export function joinStays(
  units: readonly { readonly stays: readonly Stay[]; readonly benchRepairs: readonly BenchRepair[] }[],
): {
  readonly engines: ReadonlyMap<string, JoinedEngine>;
  /** The engine in each unit at the end of what is known, and what to add to the unit's use to get its x; by unit. */
  readonly fitted: ReadonlyMap<string, { readonly engine: string; readonly offset: number }>;
} {
  const bySerial = new Map<string, Stay[]>();
  const byUnit = new Map<string, Stay[]>();
  for (const stay of units.flatMap((unit) => unit.stays)) {
    if (stay.serial !== null) listOf(bySerial, stay.serial).push(stay);
    listOf(byUnit, stay.timeline.unit).push(stay);
  }
  const engines = new Map<string, JoinedEngine>();
  const add = (wish: string, stays: readonly Stay[]) => {
    let engine = wish;
    while (engines.has(engine)) engine += "'";
    engines.set(engine, joinedEngine(engine, stays));
  };
  for (const [serial, stays] of [...bySerial].sort(([a], [b]) => compareText(a, b))) {
    const { chain, apart, rest } = resolveOverlaps(stays.sort(compareStays));
    addByMeterKind(serial, chain, add);
    for (const stay of apart) add(`${serial} (${stay.timeline.unit})`, [stay]);
    for (const stay of rest) listOf(byUnit, stay.timeline.unit).push(stay);
  }
  for (const [unit, stays] of [...byUnit].sort(([a], [b]) => compareText(a, b))) {
    stays.sort(compareStays).forEach((stay, i) => {
      if (stay.serial === null) add(`${unit} #${i + 1}`, [stay]);
    });
  }
  for (const repair of units.flatMap((unit) => unit.benchRepairs)) placeBenchRepair(engines.get(repair.serial), repair);
  return { engines, fitted: fittedEngines(engines) };
}

function listOf<T>(map: Map<string, T[]>, key: string): T[] {
  const known = map.get(key);
  if (known !== undefined) return known;
  const list: T[] = [];
  map.set(key, list);
  return list;
}

/** Stays of one serial number, ascending, told apart: one engine's life, impossible ones, and what cutting left over. */
function resolveOverlaps(stays: readonly Stay[]): { chain: Stay[]; apart: Stay[]; rest: Stay[] } {
  const chain: Stay[] = [];
  const apart: Stay[] = [];
  const rest: Stay[] = [];
  for (const next of stays) {
    const before = chain.at(-1);
    const from = next.fromDate;
    if (before === undefined || (from !== null && before.toDate !== null && before.toDate <= from)) {
      chain.push(next);
      continue;
    }
    const [here, there] = [next.timeline, before.timeline];
    const isRunLater = from !== null && before.events.some((event) => event.date >= from);
    if (from !== null && before.toDate !== null && !isRunLater) {
      chain.push(next); // Nothing happened in the days by which the two records differ.
    } else if (from !== null && next.lastNamed !== "" && before.lastNamed <= from) {
      rest.push(cutStay(before, from));
      there.warnings.push(
        `Engine ${next.serial} was in ${here.unit} from ${dateWords(from)}: since then the engine in ${there.unit} is not known, and a new life is assumed. Add the swap to the repairs.`,
      );
      chain.push(next);
    } else {
      apart.push(next);
      for (const [unit, other] of [
        [here, there],
        [there, here],
      ] as const) {
        unit.warnings.push(
          `Engine ${next.serial} is told of ${other.unit} for the same time: the two histories are kept apart until this is settled.`,
        );
      }
    }
  }
  return { chain, apart, rest };
}

/** One engine for the stays on a distance meter and one for those on an hour meter; the first has the plain name. */
function addByMeterKind(serial: string, chain: readonly Stay[], add: (engine: string, stays: readonly Stay[]) => void) {
  const first = chain[0];
  if (first === undefined) return;
  const same = chain.filter((stay) => meterKind(stay) === meterKind(first));
  const other = chain.filter((stay) => meterKind(stay) !== meterKind(first));
  add(serial, same);
  if (other.length === 0) return;
  const { meterUnit } = (other.at(-1) as Stay).timeline;
  for (const { timeline } of other) {
    timeline.warnings.push(
      `Engine ${serial} came from a unit whose meter counts otherwise (${first.timeline.meterUnit} there, ${timeline.meterUnit} here): its wear can't be carried over, a history of its own starts.`,
    );
  }
  add(`${serial} (${meterUnit})`, other);
}

function joinedEngine(engine: string, stays: readonly Stay[]): JoinedEngine {
  const last = stays.at(-1) as Stay;
  const { meterUnit } = last.timeline;
  const placed: PlacedStay[] = [];
  for (const stay of stays) {
    const factor = meterFactor(stay.timeline.meterUnit, meterUnit) ?? 1;
    const before = placed.at(-1);
    const offset = before === undefined ? 0 : endX(before) - stay.fromCumulative * factor;
    placed.push({ stay, factor, offset });
  }
  return { engine, serial: last.serial, meterUnit, stays: placed, benchRepairs: [] };
}

export const xAt = ({ factor, offset }: PlacedStay, cumulative: number): number => cumulative * factor + offset;

const startX = (placed: PlacedStay) => xAt(placed, placed.stay.fromCumulative);
const endX = (placed: PlacedStay) => xAt(placed, placed.stay.toCumulative ?? placed.stay.fromCumulative);

const isInAt = ({ fromDate, toDate }: Stay, date: IsoDate) =>
  (fromDate === null || fromDate <= date) && (toDate === null || date < toDate);

/** A repair on the bench stands where the engine's wear stood when it was taken out, else when it was first fitted. */
function placeBenchRepair(engine: JoinedEngine | undefined, repair: BenchRepair): void {
  if (engine === undefined) return;
  const within = engine.stays.find(({ stay }) => isInAt(stay, repair.date));
  const before = engine.stays.findLast(({ stay }) => stay.toDate !== null && stay.toDate <= repair.date);
  const first = engine.stays[0] as PlacedStay;
  const x =
    within !== undefined
      ? xAt(within, cumulativeOnDate(within.stay.timeline.meter, repair.date))
      : before !== undefined
        ? endX(before)
        : startX(first);
  engine.benchRepairs.push({ repair, x });
}

export const fittingsOf = (engine: JoinedEngine): Fitting[] =>
  engine.stays.map((placed) => ({
    unit: placed.stay.timeline.unit,
    fromDate: placed.stay.fromDate,
    toDate: placed.stay.toDate,
    fromX: startX(placed),
    toX: placed.stay.toDate === null ? null : endX(placed),
  }));

function fittedEngines(engines: ReadonlyMap<string, JoinedEngine>) {
  const fitted = new Map<string, { engine: string; offset: number }>();
  for (const { engine, stays } of engines.values()) {
    for (const { stay, offset } of stays) if (stay.toDate === null) fitted.set(stay.timeline.unit, { engine, offset });
  }
  return fitted;
}
