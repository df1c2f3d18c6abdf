import { addDays } from "../calendar.ts";
import { conditionEngine } from "../condition/condition.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { StripDown } from "../schema/strip-down.ts";
import type { Cause } from "../schema/words.ts";
import type { EngineHistory, EngineRepair } from "../sealing/types.ts";
import { questionsAsked } from "./asked.ts";
import { observe, wasTested } from "./diagnose.ts";
import { type EngineView, engineView } from "./engine-view.ts";

/** Whether a repair tells what the strip-down showed; what came in at a swap was not opened by it. */
const tellsFinding = ({ scope, found, findings }: Pick<EngineRepair, "scope" | "found" | "findings">): boolean =>
  scope !== "engine-swap" && (found.length > 0 || findings.length > 0);

/**
 * The cylinders of an engine that repairs opened, each with what its tests and checks had shown before the day of the
 * repair: nothing of that day or later, for what is seen with the head off is no forecast. Ascending by date and cylinder.
 *
 * Where a repair tells its findings for the engine as a whole, they are those of one cylinder, the weakest of those that it
 * names: it is what the workshop opened the engine for.
 */
export function stripDownsOf(history: EngineHistory): readonly StripDown[] {
  return history.repairs.filter(tellsFinding).flatMap((repair) => {
    const before = historyBefore(history, repair.date);
    const view = engineView(conditionEngine(before), addDays(repair.date, -1));
    return openedBy(repair, view).map(({ cylinder, causes }): StripDown => {
      const tested = wasTested(view, cylinder);
      return {
        engine: history.engine,
        unit: repair.unit,
        engineModel: history.model.id,
        meterUnit: history.meterUnit,
        date: repair.date,
        cylinder,
        scope: repair.scope,
        found: causes,
        tested,
        seen: observe(view, cylinder, tested).map(({ id, strength, renewed }) => ({ id, strength, renewed })),
        asked: questionsAsked(view, cylinder),
      };
    });
  });
}

/** An engine as it was known at the end of the day before. */
function historyBefore(history: EngineHistory, day: IsoDate): EngineHistory {
  const isBefore = ({ date }: { readonly date: IsoDate }) => date < day;
  return {
    ...history,
    tests: history.tests.filter(isBefore),
    repairs: history.repairs.filter(isBefore),
    checks: history.checks.filter(isBefore),
  };
}

function openedBy(
  { found, findings, cylinders }: EngineRepair,
  view: EngineView,
): readonly { readonly cylinder: number; readonly causes: readonly Cause[] }[] {
  if (findings.length > 0) return findings.filter(({ cylinder }) => cylinder <= view.model.cylinders);
  const weakest = weakestOf(view, cylinders);
  return weakest === null ? [] : [{ cylinder: weakest, causes: found }];
}

/** The cylinder that leaked most, else the one with the lowest compression, else the first; null: none is named. */
function weakestOf({ leakDown, compression }: EngineView, cylinders: readonly number[]): number | null {
  const worst = (levelOf: (cylinder: number) => number | null) => {
    const known = cylinders.flatMap((cylinder) => {
      const level = levelOf(cylinder);
      return level === null ? [] : [{ cylinder, level }];
    });
    return known.length === 0 ? null : known.reduce((a, b) => (b.level > a.level ? b : a)).cylinder;
  };
  const byCompression = (cylinder: number) => {
    const level = compression[cylinder - 1]?.level ?? null;
    return level === null ? null : -level;
  };
  return worst((cylinder) => leakDown[cylinder - 1]?.level ?? null) ?? worst(byCompression) ?? cylinders[0] ?? null;
}
