import { sqliteSchema } from "./schema.ts";

/** The tables one by one, as drizzle-kit wants them to write a migration. */
export const {
  meta,
  imports,
  importFiles,
  importIssues,
  tests,
  readings,
  unitFacts,
  depotFacts,
  repairs,
  meterReadings,
  checks,
  engineModelVersions,
  engines,
  fittings,
  pools,
  assessments,
  departures,
  reports,
  fleetRows,
  settings,
  depotChanges,
  depotPeriods,
  activity,
  notes,
} = sqliteSchema;
