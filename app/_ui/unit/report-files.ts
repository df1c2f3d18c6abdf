import { type CsvTable, csvTable, yesNo } from "@/lib/outtake/csv-table.ts";
import type { MeasureAssessment } from "@/lib/schema/assessment.ts";
import type { TestLine, UnitReport } from "@/lib/schema/report.ts";

/**
 * The tables of a unit's or engine's page as files, each made of the report that the page is drawn from: kPa or %, the
 * unit's own meter, ISO dates, chances from 0 to 1.
 */
export const reportTables = {
  tests: (report: UnitReport): CsvTable => {
    const readings = report.tests
      .toSorted((a, b) => b.date.localeCompare(a.date) || b.x - a.x || b.attempt - a.attempt)
      .flatMap((test) =>
        test.entered.toSorted((a, b) => a.cylinder - b.cylinder).map((entered) => ({ test, entered })),
      );
    return csvTable<Reading>(readings, {
      unit: ({ test }) => test.unit,
      test_date: ({ test }) => test.date,
      meter: ({ test }) => test.meter,
      meter_unit: () => report.assessment.meter.unit,
      test: ({ test }) => test.measure,
      attempt: ({ test }) => test.attempt,
      cylinder: ({ entered }) => entered.cylinder,
      value: ({ entered }) => entered.value,
      value_unit: ({ entered }) => entered.valueUnit,
      supply: ({ entered }) => entered.supply,
      made_into: ({ entered }) => rounded(entered.referred),
      made_into_unit: ({ test }) => (test.measure === "leak-down" ? "%" : "kPa"),
      weight: ({ entered }) => rounded(entered.weight),
      heard_at: ({ entered }) => entered.heardAt.join("+"),
      order: ({ entered }) => entered.order,
      remarks: ({ entered }) => entered.remarks,
      warm: ({ test }) => yesNo(test.setUp.warm),
      throttle_open: ({ test }) => yesNo(test.setUp.throttleOpen),
      all_plugs_out: ({ test }) => yesNo(test.setUp.allPlugsOut),
      tdc_confirmed: ({ test }) => yesNo(test.setUp.tdcConfirmed),
      gauge_zeroed: ({ test }) => yesNo(test.setUp.gaugeZeroed),
      orifice_mm: ({ test }) => test.setUp.orificeMm,
      cranking_rpm: ({ test }) => test.setUp.crankingRpm,
      altitude_m: ({ test }) => test.setUp.altitudeM,
      barometer_kpa: ({ test }) => test.setUp.barometerKpa,
      instrument: ({ test }) => test.instrument,
      tested_by: ({ test }) => test.testedBy,
      depot: ({ test }) => test.depot,
      referral: ({ test }) => test.referral.join("; "),
      doubts: ({ test }) => test.doubts.join("; "),
      file: ({ test }) => test.file,
      line: ({ test }) => test.line,
    });
  },
  repairs: ({ repairs, assessment }: UnitReport): CsvTable =>
    csvTable(
      repairs.toSorted((a, b) => b.date.localeCompare(a.date)),
      {
        repair_date: ({ date }) => date,
        meter: ({ meter }) => meter,
        meter_unit: () => assessment.meter.unit,
        scope: ({ scope }) => scope,
        cylinders: ({ cylinders }) => cylinders.join("+"),
        what: ({ words }) => words,
        labour_hours: ({ labourHours }) => labourHours,
        downtime_days: ({ downtimeDays }) => downtimeDays,
        cost: ({ cost }) => cost,
      },
    ),
  checks: ({ checks }: UnitReport): CsvTable =>
    csvTable(checks, {
      unit: ({ unit }) => unit,
      check_date: ({ date }) => date,
      check: ({ check }) => check,
      cylinder: ({ cylinder }) => cylinder,
      result: ({ result }) => result,
      value: ({ value }) => value,
      value_unit: ({ valueUnit }) => valueUnit,
      remarks: ({ remarks }) => remarks,
    }),
  windows: ({ assessment }: UnitReport): CsvTable => csvTable(windowLines(assessment), windowColumns),
  use: ({ use, assessment }: UnitReport): CsvTable =>
    csvTable(use.spans.toReversed(), {
      from: ({ from }) => from,
      to: ({ to }) => to,
      used: ({ used }) => rounded(used),
      meter_unit: () => assessment.meter.unit,
    }),
  "past-limit": ({ pastLimit }: UnitReport): CsvTable =>
    csvTable(pastLimit, {
      by: ({ date }) => date,
      top_end: ({ topEnd }) => topEnd,
      bottom_end: ({ bottomEnd }) => bottomEnd,
    }),
} as const;

export type ReportTable = keyof typeof reportTables;
export const isReportTable = (name: string): name is ReportTable => Object.hasOwn(reportTables, name);

interface Reading {
  readonly test: TestLine;
  readonly entered: TestLine["entered"][number];
}

/** Digits beyond these would tell of nothing. */
const rounded = (value: number): number => Math.round(value * 1000) / 1000;

type WindowLine = Pick<MeasureAssessment, "crossing"> & {
  readonly place: string;
  readonly of: MeasureAssessment | null;
};

/** The two classes of repair, then every cylinder and measure that is judged. */
const windowLines = ({ repairs, cylinders }: UnitReport["assessment"]): readonly WindowLine[] => [
  { place: "top-end", of: null, crossing: repairs.topEnd },
  { place: "bottom-end", of: null, crossing: repairs.bottomEnd },
  ...cylinders.flatMap(({ cylinder, measures }) =>
    measures.flatMap((of) =>
      of.crossing === null ? [] : [{ place: `cylinder ${cylinder}`, of, crossing: of.crossing }],
    ),
  ),
];

const windowColumns: Parameters<typeof csvTable<WindowLine>>[1] = {
  place: ({ place }) => place,
  test: ({ of }) => of?.measure ?? null,
  status: ({ crossing }) => crossing?.status ?? null,
  early_p10: ({ crossing }) => crossing?.date.p10 ?? null,
  likely_p50: ({ crossing }) => crossing?.date.p50 ?? null,
  late_p90: ({ crossing }) => crossing?.date.p90 ?? null,
  meter_p10: ({ crossing }) => crossing?.meter.p10 ?? null,
  meter_p50: ({ crossing }) => crossing?.meter.p50 ?? null,
  meter_p90: ({ crossing }) => crossing?.meter.p90 ?? null,
  within_a_year: ({ crossing }) => crossing?.probabilityWithinYear ?? null,
  band: ({ of }) => of?.band ?? null,
  tests: ({ of }) => of?.tests ?? null,
  latest: ({ of }) => of?.latest ?? null,
  level: ({ of }) => of?.level ?? null,
  limit: ({ of }) => of?.limit ?? null,
  level_unit: ({ of }) => of?.unit ?? null,
  rate_per_thousand: ({ of }) => of?.rate?.perThousand ?? null,
  rate_p10: ({ of }) => of?.rate?.p10 ?? null,
  rate_p90: ({ of }) => of?.rate?.p90 ?? null,
  why: ({ of }) => of?.reason ?? null,
};
