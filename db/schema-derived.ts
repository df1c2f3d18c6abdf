import type { UnitAssessment } from "../lib/schema/assessment.ts";
import type { AssessmentBasis } from "../lib/schema/changes.ts";
import type { FleetRow, UnitReport, WindowDates } from "../lib/schema/report.ts";
import type { StripDown } from "../lib/schema/strip-down.ts";
import type { Band, CrossingStatus, JudgedMeasure, MeterUnit, UnitStatus } from "../lib/schema/words.ts";
import type { Vocabulary } from "./vocabulary.ts";

/** Why a unit was assessed. `day`: a day went by, the same forecast is told for a new date. */
export type AssessmentReason = "import" | "undo" | "pool" | "settings" | "rebuild" | "day";

/** What every kept pool says of itself; its parameters lie beside these as the pool's maker wrote them. */
export interface KeptPool {
  readonly engineModel: string;
  readonly measure: JudgedMeasure;
  readonly meterUnit: MeterUnit;
  readonly fingerprint: string;
}

/** The dates of a unit's own windows in days since 1970, so that moves can be reckoned in SQL; null: none. */
const windowDays = (v: Vocabulary) => ({
  topEndEarlyDay: v.int(),
  topEndLikelyDay: v.int(),
  topEndLateDay: v.int(),
  bottomEndEarlyDay: v.int(),
  bottomEndLikelyDay: v.int(),
  bottomEndLateDay: v.int(),
});

/** Everything in here is derived from facts and can be made again, but for the history of assessments and of pools. */
export function derivedTables(v: Vocabulary) {
  const engines = v.table("engines", {
    engine: v.key(),
    serial: v.text(),
    engineModel: v.text().notNull(),
    meterUnit: v.word<MeterUnit>().notNull(),
    /** Its name with numbers padded, so that 2 sorts before 10. */
    engineOrder: v.text().notNull().default(""),
    /** Lower case: serial number, model and the units that it is or was in. */
    searchText: v.text().notNull().default(""),
    /** Of an engine that is in no unit now, told as if it stood; one that is in a unit is told in that unit's report. */
    report: v.json<UnitReport>(),
    /** Cylinders that repairs opened, with what had been seen before. */
    stripDowns: v.json<readonly StripDown[]>().notNull().default([]),
  });

  const fittings = v.table(
    "fittings",
    {
      engine: v
        .text()
        .notNull()
        .references(() => engines.engine, { onDelete: "cascade" }),
      place: v.int().notNull(),
      unit: v.text().notNull(),
      fromDate: v.date(),
      toDate: v.date(),
      fromX: v.real().notNull(),
      toX: v.real(),
    },
    (t) => [v.primaryKey({ columns: [t.engine, t.place] }), v.index("fittings_unit").on(t.unit)],
  );

  const pools = v.table(
    "pools",
    {
      id: v.id(),
      engineModel: v.text().notNull(),
      measure: v.word<JudgedMeasure>().notNull(),
      meterUnit: v.word<MeterUnit>().notNull(),
      fingerprint: v.text().notNull(),
      pool: v.json<KeptPool>().notNull(),
      madeAt: v.instant().notNull(),
      inForce: v.bool().notNull(),
      /** When another took its place; null: in force. */
      replacedAt: v.instant(),
    },
    (t) => [v.index("pools_in_force").on(t.inForce)],
  );

  /** Assessments as issued: a history that nothing overwrites. */
  const assessments = v.table(
    "assessments",
    {
      id: v.id(),
      unit: v.text().notNull(),
      asOf: v.date().notNull(),
      madeAt: v.instant().notNull(),
      because: v.word<AssessmentReason>().notNull(),
      importId: v.text(),
      band: v.word<Band>(),
      assessment: v.json<UnitAssessment>().notNull(),
      // What assessments are compared by, and explained from, without reading the document above.
      depot: v.text(),
      /** As in `fleet_rows`. */
      bandPlace: v.int(),
      lastTestDate: v.date(),
      questions: v.int().notNull().default(0),
      topEndStatus: v.word<CrossingStatus>().notNull().default("not-foreseen"),
      bottomEndStatus: v.word<CrossingStatus>().notNull().default("not-foreseen"),
      ...windowDays(v),
      basis: v.json<AssessmentBasis>(),
    },
    (t) => [
      v.index("assessments_unit").on(t.unit, t.id),
      v.index("assessments_import").on(t.importId),
      v.index("assessments_made").on(t.madeAt),
      v.index("assessments_unit_made").on(t.unit, t.madeAt, t.id),
    ],
  );

  /** Units that left the fleet: nothing was known of them any more, or they could not be assessed. A history as well. */
  const departures = v.table(
    "departures",
    {
      id: v.id(),
      unit: v.text().notNull(),
      at: v.instant().notNull(),
      because: v.word<AssessmentReason>().notNull(),
      importId: v.text(),
    },
    (t) => [v.index("departures_unit").on(t.unit, t.id), v.index("departures_at").on(t.at)],
  );

  /** The report now in force for each unit: what the Unit page shows. */
  const reports = v.table(
    "reports",
    {
      unit: v.key(),
      /** Version of the facts that it was made from. */
      factsVersion: v.int().notNull().default(0),
      report: v.json<UnitReport>().notNull(),
      /** `reportFormat` of the program that made it; 0: made before formats were counted. */
      format: v.int().notNull().default(0),
    },
    // Reports are long: the oldest format is found without reading them.
    (t) => [v.index("reports_format").on(t.format)],
  );

  /** One row for each unit out of its report in force: what the Fleet page searches, filters and sorts. */
  const fleetRows = v.table(
    "fleet_rows",
    {
      unit: v.key(),
      /** The unit's name with its numbers padded, so that 2 sorts before 10. */
      unitOrder: v.text().notNull(),
      asOf: v.date().notNull(),
      madeAt: v.instant().notNull(),
      because: v.word<AssessmentReason>().notNull(),
      importId: v.text(),
      engineModel: v.text().notNull(),
      modelName: v.text().notNull(),
      layout: v.word<FleetRow["layout"]>().notNull(),
      depot: v.text(),
      status: v.word<UnitStatus>().notNull(),
      band: v.word<Band>(),
      /** 0: past the limit … 3: sound; null: never tested. */
      bandPlace: v.int(),
      cylinderBands: v.json<readonly (Band | null)[]>().notNull(),
      placeTitle: v.text().notNull(),
      placeDetail: v.text().notNull(),
      lastTestDate: v.date(),
      testOverdue: v.bool().notNull(),
      questions: v.int().notNull(),
      perDay: v.real().notNull(),
      meterUnit: v.word<MeterUnit>().notNull(),
      /** At the as-of date, in the meter's unit. */
      meter: v.real().notNull().default(0),
      unitClass: v.text(),
      engineSerial: v.text(),
      nextTestDue: v.date(),
      topEndStatus: v.word<CrossingStatus>().notNull(),
      topEnd: v.json<WindowDates>().notNull(),
      bottomEndStatus: v.word<CrossingStatus>().notNull(),
      bottomEnd: v.json<WindowDates>().notNull(),
      /** Probability within a year. */
      topEndChance: v.real(),
      bottomEndChance: v.real(),
      ...windowDays(v),
      /** The newest of its assessments in the history, and when that was issued; null: kept before either was told. */
      issueId: v.int(),
      issuedAt: v.instant(),
      /** 0: crossed, 1: due at `dueDate` (p50), 2: at the earliest then (p10); null: nothing foreseen. */
      duePlace: v.int(),
      dueDate: v.date(),
      /** Lower case: unit, engine serial, depot, model and place. */
      searchText: v.text().notNull(),
    },
    (t) => [
      v.index("fleet_rows_due").on(t.duePlace, t.dueDate),
      v.index("fleet_rows_band").on(t.bandPlace),
      // All that the Fleet page counts and groups by: the rows themselves, with their drawings, need not be read.
      v
        .index("fleet_rows_counted")
        .on(
          t.depot,
          t.engineModel,
          t.modelName,
          t.band,
          t.bandPlace,
          t.duePlace,
          t.dueDate,
          t.lastTestDate,
          t.testOverdue,
          t.questions,
        ),
      v.index("fleet_rows_as_of").on(t.asOf),
      v.index("fleet_rows_issued").on(t.issuedAt),
    ],
  );

  return { engines, fittings, pools, assessments, departures, reports, fleetRows };
}
