import type { IsoDate } from "../schema/facts.ts";
import type { EngineHistory, UnitHistory } from "../sealing/types.ts";

/**
 * An engine that is in no unit now, as a unit that is stopped: named by the engine, its meter the engine's own wear meter,
 * which stands where it stood when the engine was taken out. So it is assessed as every unit is. null: it is in a unit.
 */
export function engineOnItsOwn(history: EngineHistory, asOf: IsoDate): UnitHistory | null {
  const last = history.fittings.at(-1);
  if (last === undefined || last.toDate === null || last.toX === null) return null;
  const x = last.toX;
  return {
    unit: history.serial ?? history.engine,
    model: history.model,
    meterUnit: history.meterUnit,
    depot: null,
    class: null,
    status: "stopped",
    disposalDate: null,
    engine: history.engine,
    meterPoints: [{ date: last.toDate < asOf ? last.toDate : asOf, meter: x, cumulative: x }],
    offset: 0,
    engineOffset: 0,
    warnings: [],
  };
}
