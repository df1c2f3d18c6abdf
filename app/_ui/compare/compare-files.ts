import { type CsvTable, csvTable } from "../../../lib/outtake/csv-table.ts";
import type { ModelComparison, ModelRates, SisterBand, TesterComparison } from "../../../lib/schema/comparison.ts";
import type { CompareLine } from "./lines.ts";
import type { RatesView } from "./rate-words.ts";
import { hintOf } from "./tester-words.ts";

/** The tables of the Compare pages as files: kPa or %, rates for each 1,000 h, km or mi. */

const unitOf = (measure: ModelComparison["measure"]) => (measure === "leak-down" ? "%" : "kPa");

/** Every unit with a rate of its own, also those that the page does not list. */
export const standingsTable = ({ standings, ...of }: ModelComparison): CsvTable =>
  csvTable(standings, {
    unit: ({ unit }) => unit,
    depot: ({ depot }) => depot,
    engine_model: () => of.engineModel,
    test: () => of.measure,
    cylinder: ({ fastest }) => fastest.cylinder,
    level: ({ fastest }) => fastest.level,
    level_unit: () => unitOf(of.measure),
    rate_per_thousand: ({ fastest }) => fastest.perThousand,
    rate_p10: ({ fastest }) => fastest.p10,
    rate_p90: ({ fastest }) => fastest.p90,
    meter_unit: () => of.meterUnit,
    sisters: ({ sisters }) => sisters,
    slower_sisters: ({ slower }) => slower,
    stands_out: ({ fast, beyondBand }) =>
      [fast ? "fast" : null, beyondBand ? "beyond the band" : null].filter((words) => words !== null).join("; "),
  });

/** The sisters' band along the meter. */
export const bandTable = (of: ModelComparison, band: SisterBand | null): CsvTable =>
  csvTable(band?.stretches.flat() ?? [], {
    meter: ({ x }) => x,
    meter_unit: () => of.meterUnit,
    engines: ({ engines }) => engines,
    p10: ({ p10 }) => p10,
    p50: ({ p50 }) => p50,
    p90: ({ p90 }) => p90,
    level_unit: () => unitOf(of.measure),
  });

/** The readings of the units drawn. */
export const linesTable = (of: ModelComparison, lines: readonly CompareLine[]): CsvTable =>
  csvTable(
    lines.flatMap((line) => line.runs.flatMap((run) => run.points.map((point) => ({ line, run, point })))),
    {
      unit: ({ line }) => line.unit,
      cylinder: ({ line }) => line.cylinder,
      meter: ({ point }) => point[0],
      meter_unit: () => of.meterUnit,
      level: ({ point }) => point[1],
      level_unit: () => unitOf(of.measure),
      weight: ({ point }) => point[2],
      counts: ({ point, run }) => (point[2] <= 0 ? "kept, not used" : run.compared ? "yes" : "after a repair"),
    },
  );

/** Rates by model and depot; a group of few engines tells each by itself. */
export const ratesTable = (models: readonly ModelRates[], { of, measure }: RatesView): CsvTable =>
  csvTable(
    models.flatMap((model) => model.rates[of].map((group) => ({ model, group }))),
    {
      engine_model: ({ model }) => model.engineModel,
      depot: ({ group }) => (group.depot === undefined ? "all" : (group.depot ?? "not recorded")),
      test: () => measure,
      of_each_engine: () => `${of} cylinder`,
      engines: ({ group }) => group.engines,
      p10: ({ group }) => group.quantiles?.p10 ?? null,
      p25: ({ group }) => group.quantiles?.p25 ?? null,
      p50: ({ group }) => group.quantiles?.p50 ?? null,
      p75: ({ group }) => group.quantiles?.p75 ?? null,
      p90: ({ group }) => group.quantiles?.p90 ?? null,
      each: ({ group }) => (group.quantiles === null ? group.rates.join("; ") : null),
      rate_unit: ({ model }) => `${unitOf(measure)} per 1000 ${model.meterUnit}`,
    },
  );

/** Instruments, and how far they read from the others. */
export const testersTable = (comparisons: readonly TesterComparison[]): CsvTable =>
  csvTable(
    comparisons.flatMap((of) =>
      of.testers.map((tester) => ({ measure: of.measure, tester, hint: hintOf(of, tester.instrument) })),
    ),
    {
      test: ({ measure }) => measure,
      instrument: ({ tester }) => tester.instrument,
      orifice_mm: ({ tester }) => tester.orificeMm,
      depots: ({ tester }) => tester.depots.join("; "),
      tests: ({ tester }) => tester.tests,
      engines: ({ tester }) => tester.engines,
      shared_engines: ({ tester }) => tester.shared,
      first_used: ({ tester }) => tester.firstUsed,
      last_used: ({ tester }) => tester.lastUsed,
      verdict: ({ tester }) => tester.verdict,
      offset: ({ tester }) => tester.offset?.mean ?? null,
      offset_low: ({ tester }) => tester.offset?.low ?? null,
      offset_high: ({ tester }) => tester.offset?.high ?? null,
      offset_unit: ({ measure }) => (measure === "leak-down" ? "points of leakage" : "% of the compression"),
      probability: ({ tester }) => tester.offset?.probability ?? null,
      against: ({ tester }) => tester.against.join("; "),
      tied_by: ({ tester }) => tester.units.join("; "),
      hint_since: ({ hint }) => hint?.from ?? null,
      hint_step: ({ hint }) => hint?.mean ?? null,
      hint_engines: ({ hint }) => hint?.engines ?? null,
      hint_probability: ({ hint }) => hint?.probability ?? null,
    },
  );
