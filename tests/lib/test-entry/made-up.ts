import type { TestDraft } from "@/lib/schema/test-draft.ts";
import type { EntryTerms } from "@/lib/test-entry/entry.ts";
import type { LastReading, MeasureFacts } from "@/lib/test-entry/sheet-facts.ts";

/** An engine of four cylinders with its last test, and a sheet of it. */

const lastOf = (level: number, more: Partial<LastReading> = {}): LastReading => ({
  date: "2026-05-03",
  level,
  value: level,
  valueUnit: "kPa",
  used: true,
  ...more,
});

export const compressionTerms: EntryTerms = {
  test: "compression-dry",
  valueUnit: "kPa",
  supply: null,
  orificeMm: null,
};
export const leakDownTerms: EntryTerms = { test: "leak-down", valueUnit: "%", supply: 550, orificeMm: 1.016 };

export function compressionFacts(levels: readonly (number | null)[], { limit = 900 } = {}): MeasureFacts {
  return {
    test: "compression-dry",
    newKpa: 1250,
    tester: null,
    lastHeld: null,
    instruments: [],
    byCylinder: levels.map((level, i) => ({
      cylinder: i + 1,
      limit,
      last: level === null ? [] : [lastOf(level)],
    })),
  };
}

export function leakDownFacts(levels: readonly (number | null)[], { limit = 30 } = {}): MeasureFacts {
  return {
    test: "leak-down",
    newKpa: null,
    tester: { orificeMm: 1.016, supplyKpa: 550 },
    lastHeld: null,
    instruments: [],
    byCylinder: levels.map((level, i) => ({
      cylinder: i + 1,
      limit,
      last: level === null ? [] : [lastOf(level, { valueUnit: "%" })],
    })),
  };
}

export const nothingTold: TestDraft["setUp"] = {
  warm: null,
  throttleOpen: null,
  allPlugsOut: null,
  tdcConfirmed: null,
  gaugeZeroed: null,
  batterySupported: null,
  fuelAndIgnitionOff: null,
  crankshaftHeld: null,
};

export const draftOf = (more: Partial<TestDraft> = {}): TestDraft => ({
  id: "00112233445566778899aabb",
  unit: "V-1",
  depot: null,
  test: "compression-dry",
  date: "2026-06-20",
  meter: 1500,
  meterUnit: "h",
  valueUnit: "kPa",
  supply: null,
  orificeMm: null,
  crankingRpm: 210,
  instrument: null,
  testedBy: "A. Fitter",
  setUp: { ...nothingTold, warm: true, allPlugsOut: true },
  remarks: null,
  readings: [],
  ...more,
});

export const readingOf = (
  cylinder: number,
  value: number,
  more: Partial<TestDraft["readings"][number]> = {},
): TestDraft["readings"][number] => ({
  cylinder,
  value,
  firstStroke: null,
  heardAt: [],
  remarks: null,
  asked: [],
  ...more,
});
