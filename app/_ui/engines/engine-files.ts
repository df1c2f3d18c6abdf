import type { EngineWithFittings } from "../../../db/engines.ts";
import { type CsvTable, csvTable } from "../../../lib/outtake/csv-table.ts";
import { stayNow } from "./engine-words.ts";

/** The heads of a list of engines, and the line of each. */
export const enginesTable = (engines: readonly EngineWithFittings[]): CsvTable =>
  csvTable(engines, {
    engine: ({ engine }) => engine,
    engine_serial: ({ serial }) => serial,
    engine_model: ({ engineModel }) => engineModel,
    now_in: (engine) => stayNow(engine)?.unit ?? null,
    since: (engine) => (stayNow(engine) ?? { fromDate: engine.fittings.at(-1)?.toDate ?? null }).fromDate,
    before_in: (engine) =>
      engine.fittings
        .filter((stay) => stay !== stayNow(engine))
        .map(({ unit }) => unit)
        .join("; "),
  });

/** Where engines were, latest first; of one unit alone where `unit` is told. `xNow`: the wear meter of what is still fitted. */
export function fittingsTable(
  engines: readonly EngineWithFittings[],
  { unit, xNow }: { readonly unit?: string; readonly xNow: number | null },
): CsvTable {
  const stays = engines.flatMap((engine) => engine.fittings.map((stay) => ({ engine, stay, end: stay.toX ?? xNow })));
  const wanted = stays.filter(({ stay }) => unit === undefined || stay.unit === unit).toReversed();
  return csvTable(wanted, {
    engine: ({ engine }) => engine.engine,
    engine_serial: ({ engine }) => engine.serial,
    unit: ({ stay }) => stay.unit,
    from: ({ stay }) => stay.fromDate,
    to: ({ stay }) => stay.toDate,
    used_there: ({ stay, end }) => (end === null ? null : Math.round(Math.max(0, end - stay.fromX) * 10) / 10),
    wear_meter_at_end: ({ end }) => (end === null ? null : Math.round(end * 10) / 10),
    meter_unit: ({ engine }) => engine.meterUnit,
  });
}
