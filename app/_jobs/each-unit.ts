import type { Store } from "../../db/store.ts";
import { type AssessedUnit, type AssessOptions, assessUnit } from "../../lib/assess.ts";
import type { MeterUnit } from "../../lib/schema/words.ts";
import type { FactsChange } from "./facts-change.ts";
import { type FleetPart, fleetParts } from "./fleet-parts.ts";
import { guarded, type LeftOut, type NotAssessed } from "./guarded.ts";
import { breather, type JobControl, progressOf } from "./progress.ts";

export interface Assessing extends AssessOptions {
  readonly usualMeterUnits: ReadonlyMap<string, MeterUnit>;
  /** Laid over the facts that stand; nothing that comes of it may be kept. */
  readonly change?: FactsChange | undefined;
}

export interface AssessedUnits {
  /** The units that it came to, also those without a report now. */
  readonly done: ReadonlySet<string>;
  /** How many of these could be assessed, or need not be. */
  readonly units: number;
  readonly notAssessed: readonly LeftOut[];
}

interface Take<T> {
  /** What is wanted of an assessed unit; where it throws, the unit counts as not assessed. */
  readonly make: (assessed: AssessedUnit) => T;
  readonly take: (made: T) => Promise<void> | void;
  /** After the units of a part; `failed`: the engines of those that could not be assessed. */
  readonly endPart?: (
    part: FleetPart,
    told: {
      readonly failed: ReadonlySet<string>;
      readonly leaveOut: (problem: NotAssessed) => void;
      readonly breathe: () => Promise<void>;
    },
  ) => Promise<void>;
}

/**
 * Assesses the units, and all that are connected with them over shared engines, part by part, and gives each to `take`.
 * One that cannot be assessed is told, and the others go on. Keeps nothing itself.
 */
export async function eachUnit<T>(
  store: Store,
  units: readonly string[],
  assessing: Assessing,
  { make, take, endPart }: Take<T>,
  { onProgress, signal, onNotAssessed }: JobControl = {},
): Promise<AssessedUnits> {
  const breathe = breather(signal);
  const done = new Set<string>();
  const notAssessed: LeftOut[] = [];
  let failures = 0;
  const leaveOut = (problem: LeftOut) => {
    notAssessed.push(problem);
    onNotAssessed?.(problem);
  };
  const tellProgress = (count: number) =>
    onProgress?.(progressOf("assessing", { units: count, totalUnits: Math.max(count, units.length) }));
  if (units.length > 0) tellProgress(0);
  for await (const part of fleetParts(store, units, assessing)) {
    const { index } = part;
    const failed = new Set<string>();
    for (const [i, unit] of index.units.entries()) {
      const made = guarded(`the unit ${unit.unit}`, () => make(assessUnit(index, unit, assessing)));
      if (made.ok) await take(made.value);
      else {
        failures += 1;
        failed.add(unit.engine);
        leaveOut({ ...made.error, unit: unit.unit, units: [unit.unit] });
      }
      tellProgress(done.size + i + 1);
      await breathe();
    }
    const units = [...part.units];
    await endPart?.(part, {
      failed,
      leaveOut: (problem) => leaveOut({ ...problem, unit: null, units }),
      breathe,
    });
    for (const unit of part.units) done.add(unit);
    tellProgress(done.size);
    await breathe();
  }
  return { done, units: done.size - failures, notAssessed };
}
