import { classOf, serialOf } from "./classes.ts";
import { dateAt, ordinaryUnit } from "./ordinary.ts";
import { type Depot, line, through, type UnitPlan } from "./plan.ts";
import { eventStories } from "./stories-events.ts";
import { wearStories } from "./stories-wear.ts";

/** The fleet of Quillmere District Works: 40 units, all invented. */
export function fleetOf(seed: number): UnitPlan[] {
  const plain = (
    unit: string,
    depot: Depot,
    [yearly, startMeter]: readonly [yearly: number, startMeter: number],
    told?: Parameters<typeof ordinaryUnit>[2],
  ): UnitPlan => {
    const { class: unitClass, model, meterUnit } = classOf(unit);
    const fixed = { unit, depot, yearly, startMeter, class: unitClass, model, meterUnit, serial: serialOf(unit) };
    return ordinaryUnit(fixed, seed, told);
  };
  const units = [
    ...wearStories(seed),
    ...eventStories(seed),
    // Rebuilt in the course of the history.
    plain("V-101", "Lowmarsh", [33_000, 139_000], {
      rings: through([0, 19], [1.15, 23], [1.16, 4], [3, 5.6]),
      repairs: [
        {
          date: dateAt(1.155),
          scope: "bottom-end",
          cylinders: "all",
          found: ["rings-or-bore"],
          cost: 5240,
          labourHours: 40,
          downtimeDays: 9,
        },
      ],
    }),
    plain("V-103", "Midfell", [26_000, 171_500], { disposalDate: "2027-03-31" }),
    plain("V-107", "Highcol", [31_000, 58_400]),
    plain("L-201", "Lowmarsh", [52_000, 88_000], {
      faults: [
        { cylinder: 1, place: "neighbour", leakage: through([1.1, 0], [1.2, 22], [1.34, 24], [1.35, 0]) },
        { cylinder: 2, place: "neighbour", leakage: through([1.1, 0], [1.2, 20], [1.34, 22], [1.35, 0]) },
      ],
      repairs: [
        {
          date: dateAt(1.345),
          scope: "top-end",
          cylinders: "all",
          found: ["head-gasket"],
          cost: 3010,
          labourHours: 22,
          downtimeDays: 6,
        },
      ],
      checks: [
        { date: dateAt(1.3), check: "combustion-gas-in-coolant", result: "clear" },
        { date: dateAt(1.5), check: "cooling-pressure", result: "clear" },
      ],
    }),
    plain("L-202", "Midfell", [34_000, 176_000], { disposalDate: "2026-12-31" }),
    plain("L-204", "Highcol", [38_000, 60_500]),
    plain("L-208", "Midfell", [46_000, 41_000]),
    plain("L-209", "Lowmarsh", [57_000, 152_000], { rings: line(8.5, 11.8) }),
    plain("H-303", "Lowmarsh", [105_000, 233_000]),
    // Bought for its low meter and never tested.
    { ...plain("H-306", "Midfell", [66_000, 318_000]), occasions: [] },
    plain("H-307", "Lowmarsh", [74_000, 287_000]),
    plain("P-401", "Lowmarsh", [820, 2_900], {
      faults: [{ cylinder: 3, place: "inlet", leakage: line(5, 13.5) }],
      repairs: [
        {
          date: dateAt(2.2),
          scope: "adjustment",
          cylinders: "all",
          cost: 310,
          labourHours: 4.5,
          downtimeDays: 1,
          remarks: "valve clearances set",
        },
      ],
      checks: [
        {
          date: dateAt(2.18),
          cylinder: 3,
          check: "valve-clearance",
          result: "suspect",
          value: 0.18,
          valueUnit: "mm",
        },
      ],
    }),
    plain("G-501", "Lowmarsh", [2_450, 6_300]),
    plain("M-601", "Lowmarsh", [540, 310], { use: "summer" }),
    // Not tested for more than a year.
    plain("M-603", "Highcol", [270, 205], {
      use: "summer",
      lastYears: 1.86,
      faults: [{ cylinder: 1, place: "exhaust", leakage: line(9, 26) }],
    }),
    plain("A-701", "Lowmarsh", [170, 1_870]),
    plain("A-703", "Midfell", [210, 2_420], {
      faults: [{ cylinder: 2, place: "exhaust", leakage: through([0.8, 6], [3, 17.5]) }],
      checks: [{ date: dateAt(2.6), cylinder: 2, check: "borescope", result: "suspect", remarks: "seat marked" }],
    }),
  ];
  return units.toSorted((a, b) => (a.unit < b.unit ? -1 : 1));
}
