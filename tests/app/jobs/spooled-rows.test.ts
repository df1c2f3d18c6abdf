import { describe, expect, it } from "vitest";
import { lineOf, rowOf } from "@/app/_jobs/spooled-rows.ts";
import type { ReadingFact, TestFact } from "@/lib/schema/facts.ts";
import { meterReading } from "../../db/made-up.ts";

// Every field is set, so that one that is forgotten on the way is missed.
const full: Required<ReadingFact> = {
  cylinder: 3,
  value: 12.5,
  valueUnit: "kPa",
  supply: 690,
  firstStroke: 400,
  heardAt: ["exhaust", "inlet"],
  order: 2,
  remarks: 'a "quoted"\nremark',
  line: 17,
  file: "other.csv",
  column: "cyl_3",
  byLayout: true,
};
const plain: ReadingFact = {
  cylinder: 1,
  value: 8,
  valueUnit: "%",
  supply: null,
  firstStroke: null,
  heardAt: [],
  order: null,
  remarks: null,
  line: 2,
};
const whole: TestFact = {
  unit: "B-12",
  date: "2026-06-11",
  time: "08:30",
  meter: 8100,
  meterUnit: "h",
  test: "leak-down",
  attempt: 2,
  instrument: "T-1",
  depot: "Ford",
  engineSerial: "E-9",
  engineModel: "petrol-4-a",
  testedBy: "Lead",
  file: "tests.csv",
  orificeMm: 1.016,
  warm: true,
  throttleOpen: false,
  allPlugsOut: true,
  tdcConfirmed: false,
  gaugeZeroed: true,
  crankingRpm: 190,
  altitudeM: 120,
  barometerKpa: 101.3,
  readings: [plain, full, { ...plain, cylinder: 2 }],
};

describe("rows of units as lines of text", () => {
  it("come back with every field, in their order", () => {
    expect(rowOf(lineOf("tests", whole))).toEqual(["tests", whole]);
    expect(lineOf("tests", whole)).not.toContain("\n");
  });

  it.each(Object.entries(full).filter(([field]) => !["cylinder", "value", "valueUnit", "line"].includes(field)))(
    "keep a reading's %s where it is all that the reading has to tell beside its value",
    (field, value) => {
      const test = { ...whole, readings: [{ ...plain, [field]: value }] };
      expect(rowOf(lineOf("tests", test))).toEqual(["tests", test]);
    },
  );

  it("come back for facts that are no tests", () => {
    const fact = meterReading({ unit: "B-7", meter: 12 });
    expect(rowOf(lineOf("meterReadings", fact))).toEqual(["meterReadings", fact]);
  });
});
