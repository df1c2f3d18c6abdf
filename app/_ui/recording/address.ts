import type { TestFact } from "../../../lib/schema/facts.ts";
import { unitAddress, unitFilesAddress } from "../unit-address.ts";

/** What can be recorded of a unit, in the order in which the forms are named. */
export const recordKinds = ["repair", "check", "meter", "new-meter", "engine", "status", "disposal"] as const;
export type RecordKind = (typeof recordKinds)[number];

export const recordTitles: Readonly<Record<RecordKind, string>> = {
  repair: "Repair",
  check: "Other evidence",
  meter: "Meter reading",
  "new-meter": "New meter",
  engine: "Engine swap",
  status: "Stop, release, retire",
  disposal: "Planned disposal",
};

/** Kept without a look at what they change: they tell how far a unit has come or what was seen, and move little. */
export const keptAtOnce: ReadonlySet<string> = new Set<RecordKind>(["meter", "check"]);

export const recordAddress = (unit: string, kind: RecordKind): string => `${unitAddress(unit)}/record?what=${kind}`;

type Named = Pick<TestFact, "date" | "test" | "attempt" | "instrument">;

/** The page on which a test is corrected or judged; with the cylinder that its form of judgement begins with. */
export const testAddress = (unit: string, test: Named, cylinder?: number): string =>
  `${unitAddress(unit)}/record/test?${testFields(test)}${cylinder === undefined ? "" : `&cylinder=${cylinder}`}`;

/** The history of a test as a file. */
export const testFileAddress = (unit: string, test: Named): string =>
  `${unitFilesAddress(unit)}/test-history?${testFields(test)}`;

function testFields({ date, test, attempt, instrument }: Named): string {
  const asked = new URLSearchParams({ date, test, attempt: String(attempt) });
  if (instrument !== null) asked.set("instrument", instrument);
  return asked.toString();
}
