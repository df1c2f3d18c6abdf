import { type Random, seededRandom } from "../../demo-data/random.ts";
import { gaugeKinds, type HonestUnit, honestFleet } from "./slip-fleet.ts";
import { entryFaults, entryFindings } from "./slips-at-engine.ts";
import { intakeFaults, intakeWarnings } from "./slips-in-files.ts";

/** How often the warnings of slips are wrong, and how often they find a slip that is there. */

export interface SlipRate {
  /** Where it is told: of rows that come in, or of a reading at the engine. */
  readonly where: "file" | "engine";
  readonly code: string;
  /** What was planted, in a few words. */
  readonly planted: string;
  /** For 1,000 honest tests, over all kinds of gauge; and of the kind with the most. */
  readonly falseAlarms: number;
  readonly mostFalseAlarms: number;
  readonly worstKind: string;
  /** Share of slips that were found, over all kinds that the slip was planted in; and of the kind with the fewest. */
  readonly found: number;
  readonly fewestFound: number;
  readonly slips: number;
}

/** What can be planted in the last test of a unit; null: this unit gives no occasion. True: it was told of. */
export interface PlantedFault {
  readonly code: string;
  readonly planted: string;
  readonly found: (unit: HonestUnit, random: Random) => boolean | null;
}

interface Told {
  readonly where: SlipRate["where"];
  readonly faults: readonly PlantedFault[];
  /** Codes told of each honest test of a unit. */
  readonly ofHonest: (unit: HonestUnit) => readonly ReadonlySet<string>[];
}

const sides: readonly Told[] = [
  { where: "file", faults: intakeFaults, ofHonest: intakeWarnings },
  { where: "engine", faults: entryFaults, ofHonest: entryFindings },
];

/** Rates of every warning, on so many units of each kind of gauge. */
export function slipRates(unitsOfKind: number, seed: number): readonly SlipRate[] {
  const fleets = gaugeKinds.map((kind, i) => ({ kind, units: honestFleet(kind, unitsOfKind, seed + i) }));
  return sides.flatMap(({ where, faults, ofHonest }) => {
    const honest = fleets.map(({ units }) => units.flatMap(ofHonest));
    return faults.map(({ code, planted, found }): SlipRate => {
      const alarms = honest.map((tests) => (1000 * tests.filter((told) => told.has(code)).length) / tests.length);
      const tries = fleets.map(({ units }, i) => {
        const random = seededRandom(seed + 100 + i);
        return units.map((unit) => found(unit, random)).filter((told) => told !== null);
      });
      const shares = tries.filter((told) => told.length > 0).map((told) => told.filter(Boolean).length / told.length);
      const all = tries.flat();
      const worst = alarms.indexOf(Math.max(...alarms));
      return {
        where,
        code,
        planted,
        falseAlarms: alarms.reduce((sum, rate) => sum + rate, 0) / alarms.length,
        mostFalseAlarms: alarms[worst] as number,
        worstKind: fleets[worst]?.kind.name ?? "",
        found: all.filter(Boolean).length / all.length,
        fewestFound: Math.min(...shares),
        slips: all.length,
      };
    });
  });
}
