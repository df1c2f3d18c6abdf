import { addDays } from "../lib/calendar.ts";
import { classOf, serialOf } from "./classes.ts";
import { evenWear, soundEngine, workday } from "./ordinary.ts";
import { firstDay, line, type Occasion, through, type UnitPlan } from "./plan.ts";
import { storyUnit, visits } from "./stories-wear.ts";
import { randomOf } from "./use.ts";

/** Stories of single tests, repairs, meters and engines that change place. What each is to show: README.md. */

const changed = (occasion: Occasion, extra: Partial<Occasion>): Occasion => ({ ...occasion, ...extra });
const changeLast = (occasions: readonly Occasion[], extra: Partial<Occasion>): Occasion[] =>
  occasions.map((o, i) => (i === occasions.length - 1 ? changed(o, extra) : o));

export function eventStories(seed: number): UnitPlan[] {
  const random = (unit: string) => randomOf(unit, "wear", seed);
  const sound = (unit: string, faults?: Parameters<typeof soundEngine>[3]) => [
    { from: firstDay, truth: soundEngine(serialOf(unit), classOf(unit).model, random(unit), faults) },
  ];
  const even = (
    unit: string,
    ...[rings, faults]: [Parameters<typeof evenWear>[2], Parameters<typeof evenWear>[4]?]
  ) => [{ from: firstDay, truth: evenWear(serialOf(unit), classOf(unit).model, rings, random(unit), faults) }];
  return [
    // 3: the gasket goes between 2 and 3.
    storyUnit(
      { unit: "V-109", depot: "Lowmarsh", yearly: 36_000, startMeter: 64_100 },
      {
        engines: sound("V-109", [
          { cylinder: 2, place: "neighbour", leakage: through([2.7, 0], [2.71, 28]) },
          { cylinder: 3, place: "neighbour", leakage: through([2.7, 0], [2.71, 31]) },
        ]),
        occasions: changeLast(visits("V-109", [0.15, 0.65, 1.2, 1.7, 2.25, 2.9]), {
          fixed: { "leak-down": { 2: 28, 3: 31 } },
        }),
      },
    ),
    slowCranked(seed),
    // 5: one bank mended, and nobody wrote it down.
    storyUnit(
      { unit: "P-402", depot: "Lowmarsh", yearly: 560, startMeter: 3_480 },
      {
        engines: even("P-402", through([0, 13], [2.3, 26], [2.31, 8], [3, 8.4])).map(({ from, truth }) => ({
          from,
          truth: {
            ...truth,
            rings: truth.rings.map((rings, i) =>
              i < 4 ? rings : (years: number) => 6.5 + 0.8 * years + 0.2 * (i - 5),
            ),
          },
        })),
        occasions: visits("P-402", [0.14, 0.6, 1.05, 1.55, 2.0, 2.28, 2.6, 2.9]),
      },
    ),
    // 8: the same new meter twice; once the row says so.
    storyUnit(
      { unit: "V-111", depot: "Lowmarsh", yearly: 30_000, startMeter: 146_610 },
      {
        engines: even("V-111", line(7.5, 11.5)),
        occasions: visits("V-111", [0.12, 0.6, 1.1, 1.6, 2.05, 2.5, 2.9]),
        newMeter: { date: "2025-11-10", from: 212_400, to: 35, noted: true },
      },
    ),
    storyUnit(
      { unit: "V-112", depot: "Highcol", yearly: 30_000, startMeter: 123_400 },
      {
        engines: even("V-112", line(7, 10.5)),
        occasions: visits("V-112", [0.14, 0.62, 1.1, 1.6, 2.1, 2.55, 2.88]),
        newMeter: { date: "2026-08-20", from: 212_400, to: 35, noted: false },
      },
    ),
    // 13: valves done, rings not.
    storyUnit(
      { unit: "V-102", depot: "Lowmarsh", yearly: 40_000, startMeter: 131_000 },
      {
        engines: even("V-102", through([0, 10.2], [1.05, 12], [1.7, 13.2], [2.3, 15], [2.9, 16.4]), [
          { cylinder: 4, place: "exhaust", leakage: through([0, 13], [0.5, 18], [0.9, 25], [0.96, 25.5], [0.97, 0]) },
        ]),
        occasions: visits("V-102", [0.1, 0.5, 0.9, 1.08, 1.7, 2.3, 2.9]),
        repairs: [
          {
            date: "2024-08-20",
            scope: "top-end",
            cylinders: "4",
            found: ["exhaust-valve"],
            cost: 2150,
            labourHours: 15.5,
            downtimeDays: 4,
            remarks: "exhaust valve burnt, seat recut",
          },
        ],
      },
    ),
    // 14: a test done again after a run; a piston that was not at the top.
    storyUnit(
      { unit: "A-702", depot: "Midfell", yearly: 190, startMeter: 1_240 },
      {
        engines: even("A-702", line(5, 6.5)),
        occasions: [
          ...visits("A-702", [0.15, 0.6, 1.05, 1.5]),
          ...visits("A-702", [1.9]).flatMap((o) => [
            changed(o, { fixed: { "leak-down": { 1: 58 } }, remarks: "cylinder 1 low: run and repeat" }),
            changed(o, { attempt: 2, fixed: { "leak-down": { 1: 71 } }, remarks: "repeated warm, after a run" }),
          ]),
          ...visits("A-702", [2.4, 2.9]).map((o, i) =>
            i === 1 ? changed(o, { fixed: { "leak-down": { 1: 74 } } }) : o,
          ),
        ],
      },
    ),
    storyUnit(
      { unit: "V-106", depot: "Lowmarsh", yearly: 27_000, startMeter: 45_300 },
      {
        engines: sound("V-106"),
        occasions: changeLast(visits("V-106", [0.15, 0.7, 1.25, 1.8, 2.35, 2.9]), {
          fixed: { "leak-down": { 2: 96 } },
          fault: { noted: { heard_2: "exhaust" } },
        }),
      },
    ),
    ...changedEngines(seed),
    // 16: a decompressor that holds every compression down.
    storyUnit(
      { unit: "M-602", depot: "Midfell", yearly: 380, startMeter: 120 },
      {
        use: "summer",
        engines: even("M-602", line(7.6, 9)),
        occasions: visits("M-602", [0.1, 0.6, 0.9, 1.6, 1.95, 2.6, 2.9]).map((o) =>
          changed(o, { measures: ["compression-dry", "leak-down"] }),
        ),
      },
    ),
  ];
}

/** Story 4: a winter's morning with a weak battery, and the test done again nine days later. */
function slowCranked(seed: number): UnitPlan {
  const unit = "L-207";
  const day = workday("2026-02-03");
  const shares = [0.88, 0.87, 0.84, 0.8];
  const rings = line(5, 6.5);
  const truth = evenWear(serialOf(unit), classOf(unit).model, rings, randomOf(unit, "wear", seed));
  return storyUnit(
    { unit, depot: "Lowmarsh", yearly: 39_000, startMeter: 94_600 },
    {
      engines: [
        {
          from: firstDay,
          // The fourth cylinder is the leakiest, and still sound.
          truth: {
            ...truth,
            rings: truth.rings.map((c, i) => (i === 3 ? (years: number) => c(years) + 1.2 : c)),
          },
        },
      ],
      occasions: [
        ...visits(unit, [0.12, 0.6, 1.1, 1.6, 2.0]),
        {
          date: day,
          measures: ["compression-dry", "leak-down"],
          fault: { compression: (cylinder) => shares[cylinder - 1] ?? 1, noted: { cranking_rpm: 110 } },
          remarks: "frost, battery weak",
        },
        {
          date: addDays(day, 9),
          measures: ["compression-dry"],
          fault: { noted: { cranking_rpm: 210 } },
          remarks: "repeated with a charged battery",
        },
        ...visits(unit, [2.85]),
      ],
    },
  );
}

/** Story 15: the float engine goes into H-302; what came out of it is rebuilt and goes into H-305. */
function changedEngines(seed: number): UnitPlan[] {
  const swapped = "2024-11-12";
  const rebuilt = "2025-01-21";
  const fitted = "2025-03-11";
  const model = "diesel-6-a";
  const random = (name: string) => randomOf(name, "wear", seed);
  const own = serialOf("H-302");
  const float = "QD6-2950";
  return [
    storyUnit(
      { unit: "H-302", depot: "Lowmarsh", yearly: 88_000, startMeter: 521_300 },
      {
        engines: [
          { from: firstDay, truth: evenWear(own, model, line(9, 21), random("H-302")) },
          { from: swapped, truth: evenWear(float, model, through([1.2, 4.5], [3, 6.8]), random(float)) },
        ],
        occasions: visits("H-302", [0.1, 0.45, 0.85, 1.15, 1.6, 2.05, 2.5, 2.9]),
        repairs: [
          {
            date: swapped,
            scope: "engine-swap",
            cylinders: "all",
            cost: 4900,
            labourHours: 31,
            downtimeDays: 4,
            engineSerial: float,
            remarks: "float engine fitted",
          },
          {
            date: rebuilt,
            scope: "complete",
            cylinders: "all",
            found: ["rings-or-bore"],
            cost: 14_600,
            labourHours: 112,
            downtimeDays: 0,
            engineSerial: own,
            remarks: "rebuilt on the bench",
          },
        ],
      },
    ),
    storyUnit(
      { unit: "H-305", depot: "Midfell", yearly: 71_000, startMeter: 468_900 },
      {
        engines: [
          { from: firstDay, truth: evenWear(serialOf("H-305"), model, line(8, 19), random("H-305")) },
          { from: fitted, truth: evenWear(own, model, through([1.52, 2.6], [3, 3.8]), random(own)) },
        ],
        occasions: visits("H-305", [0.12, 0.5, 0.95, 1.4, 1.75, 2.15, 2.55, 2.92]),
        repairs: [
          {
            date: fitted,
            scope: "engine-swap",
            cylinders: "all",
            cost: 4700,
            labourHours: 29,
            downtimeDays: 4,
            engineSerial: own,
            remarks: "rebuilt engine from H-302 fitted, old one kept as a core",
          },
        ],
      },
    ),
  ];
}
