import type { FleetRow } from "../../../lib/schema/report.ts";

const none = { status: "not-foreseen", p10: null, p50: null, p90: null } as const;

/** A row of a sound unit with nothing foreseen. */
export const row = (unit: string, more: Partial<FleetRow> = {}): FleetRow => ({
  unit,
  engineModel: "petrol-4-a",
  modelName: "Four in line",
  layout: "in-line",
  depot: "Highcol",
  band: "sound",
  cylinderBands: ["sound", null],
  placeTitle: "Nothing stands out",
  placeDetail: "leakage 6 %, limit 30",
  lastTestDate: "2026-03-01",
  testOverdue: false,
  questions: 0,
  perDay: 87.33333,
  meterUnit: "km",
  meter: 148_600,
  unitClass: "van",
  status: "in-service",
  engineSerial: "QX-1",
  nextTestDue: null,
  topEnd: none,
  bottomEnd: none,
  topEndChance: 0.123456,
  bottomEndChance: null,
  ...more,
});
