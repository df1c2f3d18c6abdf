import { type CsvTable, csvTable, yesNo } from "../../../lib/outtake/csv-table.ts";
import {
  type Forecaster,
  forecasters,
  type LevelCase,
  type LevelGroup,
  type LimitCase,
  type TrackRecord,
} from "../../../lib/schema/track-record.ts";
import type { JudgedMeasure } from "../../../lib/schema/words.ts";
import { isScored, spanOf } from "../../../lib/track/level-scores.ts";
import type { Split } from "./address.ts";

/** The tables of the Track record as files: kPa at sea level or %, distances in each unit's own meter unit. */

const unitOf = (measure: JudgedMeasure) => (measure === "leak-down" ? "%" : "kPa");

/** The readings that one group of the page counts. */
export const readingsOfGroup = (
  cases: readonly LevelCase[],
  { measure, by, key }: { readonly measure: JudgedMeasure; readonly by: Split; readonly key: string | null },
): LevelCase[] => {
  const keyOf = (one: LevelCase): string | null =>
    by === "ahead" ? spanOf(one.days) : by === "model" ? one.engineModel : by === "tester" ? one.tester : one.depot;
  return cases.filter((one) => one.measure === measure && keyOf(one) === key && isScored(one));
};

const common = {
  unit: ({ unit }: LevelCase | LimitCase) => unit,
  engine: ({ engine }: LevelCase | LimitCase) => engine,
  engine_model: ({ engineModel }: LevelCase | LimitCase) => engineModel,
  test: ({ measure }: LevelCase | LimitCase) => measure,
  cylinder: ({ cylinder }: LevelCase | LimitCase) => cylinder,
  told_on: ({ made }: LevelCase | LimitCase) => made,
  tester: ({ tester }: LevelCase | LimitCase) => tester,
  depot: ({ depot }: LevelCase | LimitCase) => depot,
};

const levelAt = (forecaster: Forecaster, place: number) => (one: LevelCase) => one.told[forecaster]?.[place] ?? null;

/** Every forecast of a reading, and the reading. */
export const readingsTable = (cases: readonly LevelCase[]): CsvTable =>
  csvTable(cases, {
    ...common,
    came_on: ({ came }) => came,
    days: ({ days }) => days,
    distance: ({ distance }) => distance,
    meter_unit: ({ meterUnit }) => meterUnit,
    reading: ({ reading }) => reading,
    level_unit: ({ measure }) => unitOf(measure),
    p05: levelAt("borecast", 0),
    p10: levelAt("borecast", 1),
    p25: levelAt("borecast", 2),
    p50: levelAt("borecast", 3),
    p75: levelAt("borecast", 4),
    p90: levelAt("borecast", 5),
    p95: levelAt("borecast", 6),
    standardised_error: ({ z }) => z,
    straight_line_p10: levelAt("straight-line", 1),
    straight_line_p50: levelAt("straight-line", 3),
    straight_line_p90: levelAt("straight-line", 5),
    last_time_p10: levelAt("last-time", 1),
    last_time_p50: levelAt("last-time", 3),
    last_time_p90: levelAt("last-time", 5),
    repaired_next: ({ repairedNext }) => yesNo(repairedNext),
    reason: ({ reason }) => reason?.code ?? null,
    reason_words: ({ reason }) => reason?.words ?? null,
  });

const distanceAt = (forecaster: Forecaster, place: number) => (one: LimitCase) => one.told[forecaster][place] ?? null;
const withinAt = (forecaster: Forecaster, place: number) => (one: LimitCase) => one.within[forecaster][place] ?? null;

/** Every forecast of when a limit is met, and how far it was followed. */
export const limitsTable = (cases: readonly LimitCase[]): CsvTable =>
  csvTable(cases, {
    ...common,
    limit: ({ limit }) => limit,
    level_unit: ({ measure }) => unitOf(measure),
    band: ({ band }) => band,
    followed_distance: ({ followed }) => followed,
    followed_until: ({ until }) => until,
    ended_by: ({ endedBy }) => endedBy,
    met_at_distance: ({ met }) => met,
    met_on: ({ metOn }) => metOn,
    meter_unit: ({ meterUnit }) => meterUnit,
    p05: distanceAt("borecast", 0),
    p10: distanceAt("borecast", 1),
    p25: distanceAt("borecast", 2),
    p50: distanceAt("borecast", 3),
    p75: distanceAt("borecast", 4),
    p90: distanceAt("borecast", 5),
    p95: distanceAt("borecast", 6),
    within_182_days: withinAt("borecast", 0),
    within_365_days: withinAt("borecast", 1),
    within_730_days: withinAt("borecast", 2),
    straight_line: distanceAt("straight-line", 3),
    fixed_interval: distanceAt("fixed-interval", 3),
    reason: ({ reason }) => reason?.code ?? null,
    reason_words: ({ reason }) => reason?.words ?? null,
  });

/** All figures of readings, by what they are told apart by. */
export function scoresTable({ levels }: TrackRecord): CsvTable {
  const rows = levels.flatMap((of) => {
    const all: LevelGroup = { key: null, name: "all", scores: of.overall };
    const splits = [
      ["all", [all]],
      ["ahead", of.byAhead],
      ["model", of.byModel],
      ["tester", of.byTester],
      ["depot", of.byDepot],
    ] as const;
    return splits.flatMap(([by, groups]) =>
      groups.flatMap((group) =>
        forecasters.flatMap((forecaster) => {
          const score = group.scores[forecaster];
          return score === null ? [] : [{ of, by, group, forecaster, score }];
        }),
      ),
    );
  });
  const held = (range: "50" | "80" | "90") => (row: (typeof rows)[number]) => row.score.coverage?.[range].held ?? null;
  return csvTable(rows, {
    test: ({ of }) => of.measure,
    by: ({ by }) => by,
    group: ({ group }) => group.name,
    forecast: ({ forecaster }) => forecaster,
    outcomes: ({ score }) => score.outcomes,
    readings: ({ score }) => score.readings,
    held_50: held("50"),
    held_80: held("80"),
    held_90: held("90"),
    median_error: ({ score }) => score.medianError,
    pinball: ({ score }) => score.pinball,
    unit: ({ of }) => of.unit,
  });
}
