import type { ModelUnits } from "../../../db/engine-models.ts";
import { type CsvTable, csvTable, yesNo } from "../../../lib/outtake/csv-table.ts";
import type { EngineModel, LeakDownLimits } from "../../../lib/schema/engine-model.ts";
import type { Band } from "../../../lib/schema/words.ts";
import { unitCountColumns } from "../unit-counts.ts";

type Repairs = NonNullable<EngineModel["repairs"]>;
type Work = NonNullable<Repairs["both"]>;

/** The list of engine models: the engine, what it is judged by, and how its units stand. Pressures in kPa, leakage in %. */
export const modelsTable = (models: readonly EngineModel[], units: readonly ModelUnits[]): CsvTable =>
  csvTable(models, {
    engine_model: ({ id }) => id,
    name: ({ name }) => name ?? null,
    fuel: ({ fuel }) => fuel ?? null,
    cylinders: ({ cylinders }) => cylinders,
    layout: ({ layout }) => layout,
    neighbours: ({ neighbours }) => neighbours.map((pair) => pair.join("-")).join("; "),
    cooling: ({ cooling }) => cooling ?? null,
    aircraft: ({ aircraft }) => yesNo(aircraft),
    retired: ({ retired }) => yesNo(retired ?? false),
    wet_test: ({ wetTest }) => yesNo(wetTest ?? null),
    compression_new_kpa: ({ compression }) => compression?.newKpa ?? null,
    compression_minimum_kpa: ({ compression }) => compression?.minimumKpa ?? null,
    spread_rule: ({ compression }) => compression?.spreadRule ?? null,
    spread_percent: ({ compression }) => compression?.spreadPercent ?? null,
    spread_kpa: ({ compression }) => compression?.spreadKpa ?? null,
    cranking_rpm: ({ compression }) => compression?.referenceRpm ?? null,
    ...limitColumns("leakage", ({ leakDown }) => leakDown),
    ...limitColumns("valve_leakage", ({ leakDown }) => leakDown?.valves),
    orifice_mm: ({ leakDown }) => leakDown?.orificeMm ?? null,
    supply_kpa: ({ leakDown }) => leakDown?.supplyKpa ?? null,
    ...repairColumns("top_end", ({ repairs }) => repairs?.topEnd),
    ...repairColumns("bottom_end", ({ repairs }) => repairs?.bottomEnd),
    ...workColumns("both", ({ repairs }) => repairs?.both),
    ...workColumns("exchange", ({ repairs }) => repairs?.exchange),
    test_interval_meter: ({ testInterval }) => testInterval?.meter ?? null,
    test_interval_days: ({ testInterval }) => testInterval?.days ?? null,
    ...unitCountColumns<EngineModel>(({ id }) => byBand(units.filter(({ engineModel }) => engineModel === id))),
  });

const limitColumns = (of: string, limits: (model: EngineModel) => LeakDownLimits | undefined) => ({
  [`${of}_watch_percent`]: (model: EngineModel) => limits(model)?.watchPercent ?? null,
  [`${of}_plan_percent`]: (model: EngineModel) => limits(model)?.planPercent ?? null,
  [`${of}_limit_percent`]: (model: EngineModel) => limits(model)?.limitPercent ?? null,
});

const workColumns = (of: string, work: (model: EngineModel) => Work | undefined) => ({
  [`${of}_labour_hours`]: (model: EngineModel) => work(model)?.labourHours ?? null,
  [`${of}_parts`]: (model: EngineModel) => work(model)?.parts ?? null,
  [`${of}_machining`]: (model: EngineModel) => work(model)?.machining ?? null,
  [`${of}_downtime_days`]: (model: EngineModel) => work(model)?.downtimeDays ?? null,
  [`${of}_bay_days`]: (model: EngineModel) => work(model)?.bayDays ?? null,
  [`${of}_lead_days`]: (model: EngineModel) => work(model)?.leadDays ?? null,
});

const repairColumns = (of: string, repair: (model: EngineModel) => Repairs["topEnd"]) => ({
  ...workColumns(of, repair),
  [`${of}_unplanned_factor`]: (model: EngineModel) => repair(model)?.unplannedFactor ?? null,
});

/** Units on meters that count otherwise stand in rows of their own. */
function byBand(units: readonly ModelUnits[]): ReadonlyMap<Band | null, number> {
  const counts = new Map<Band | null, number>();
  for (const { band, units: count } of units) counts.set(band, (counts.get(band) ?? 0) + count);
  return counts;
}
