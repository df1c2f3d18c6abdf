import { classOf, serialOf } from "./classes.ts";
import { dateAt, evenWear, soundEngine, usualMeasures } from "./ordinary.ts";
import { type Depot, firstDay, line, type Occasion, through, type UnitPlan } from "./plan.ts";
import { randomOf } from "./use.ts";
import { midfellNewTester } from "./workshop.ts";

/** Stories of wear, testers and places. What each is to show: README.md. */

interface StoryUnit {
  readonly unit: string;
  readonly depot: Depot;
  readonly yearly: number;
  readonly startMeter: number;
}

/** A unit of a story: steady use, readings near the figures told. */
export function storyUnit(
  { unit, ...own }: StoryUnit,
  rest: Pick<UnitPlan, "engines" | "occasions"> & Partial<UnitPlan>,
): UnitPlan {
  const { model, class: unitClass, meterUnit } = classOf(unit);
  return {
    unit,
    model,
    class: unitClass,
    meterUnit,
    ...own,
    use: "steady",
    scatter: 0.4,
    repairs: [],
    checks: [],
    ...rest,
  };
}

export const visits = (unit: string, years: readonly number[]): Occasion[] =>
  years.map((at) => ({ date: dateAt(at), measures: usualMeasures(classOf(unit).model) }));

export function wearStories(seed: number): UnitPlan[] {
  const random = (unit: string) => randomOf(unit, "wear", seed);
  const even = (
    unit: string,
    ...[rings, faults]: [Parameters<typeof evenWear>[2], Parameters<typeof evenWear>[4]?]
  ) => [{ from: firstDay, truth: evenWear(serialOf(unit), classOf(unit).model, rings, random(unit), faults) }];
  const sound = (unit: string, faults?: Parameters<typeof soundEngine>[3]) => [
    { from: firstDay, truth: soundEngine(serialOf(unit), classOf(unit).model, random(unit), faults) },
  ];
  const all = (occasion: Occasion, extra: Partial<Occasion>): Occasion => ({ ...occasion, ...extra });

  /** Story 9: about 20 % on the depot's old tester, then read on the new one. */
  const onNewTester = (unit: string, own: Omit<StoryUnit, "unit" | "depot">, orificeNoted: boolean): UnitPlan =>
    storyUnit(
      { unit, depot: "Midfell", ...own },
      {
        engines: even(unit, through([0, 14.5], [2.4, 19.6], [3, 20.6])),
        occasions: [
          ...visits(unit, [0.12, 0.6, 1.1, 1.6, 2.1, 2.4]),
          ...visits(unit, [2.6, 2.92]).map((o) => all(o, { tester: midfellNewTester(orificeNoted) })),
        ],
      },
    );

  return [
    // 1: rings, all four alike.
    storyUnit(
      { unit: "V-104", depot: "Lowmarsh", yearly: 40_000, startMeter: 88_200 },
      {
        engines: even("V-104", line(11, 19)),
        occasions: visits("V-104", [0.1, 0.55, 1.0, 1.5, 1.95, 2.45, 2.9]).map((o, i) =>
          i < 5 ? o : all(o, { measures: ["compression-dry", "compression-wet", "leak-down"] }),
        ),
        checks: [{ date: dateAt(2.46), check: "blow-by", result: "suspect", remarks: "oil mist at the breather" }],
      },
    ),
    // 2: an exhaust valve that burns away within 18,000 km.
    storyUnit(
      { unit: "L-203", depot: "Lowmarsh", yearly: 48_000, startMeter: 71_500 },
      {
        engines: even("L-203", line(5.5, 7.5), [
          { cylinder: 3, place: "exhaust", leakage: through([2.605, 8], [2.73, 9], [2.855, 13], [2.98, 22]) },
        ]),
        occasions: [
          ...visits("L-203", [0.14, 0.7, 1.3, 1.85, 2.3]),
          ...visits("L-203", [2.605, 2.73, 2.855, 2.98]).map((o, i) =>
            all(o, { fixed: { "leak-down": { 3: [8, 9, 13, 22][i] as number } } }),
          ),
        ],
      },
    ),
    // 7: hardly works, badly worn: a valve that rust has marked.
    storyUnit(
      { unit: "G-502", depot: "Highcol", yearly: 60, startMeter: 2_140 },
      {
        engines: even("G-502", line(6.5, 6.8), [{ cylinder: 4, place: "exhaust", leakage: line(22.7, 23) }]),
        occasions: visits("G-502", [0.2, 0.65, 1.1, 1.6, 2.05, 2.5, 2.88]),
      },
    ),
    // 9: Midfell's new tester.
    onNewTester("V-105", { yearly: 31_000, startMeter: 118_400 }, true),
    onNewTester("V-108", { yearly: 34_000, startMeter: 127_900 }, true),
    onNewTester("L-206", { yearly: 42_000, startMeter: 163_200 }, true),
    onNewTester("V-110", { yearly: 29_000, startMeter: 104_300 }, false),
    onNewTester("P-403", { yearly: 610, startMeter: 4_020 }, false),
    // 10: both due in the weeks in which Highcol is shut.
    storyUnit(
      { unit: "H-301", depot: "Highcol", yearly: 92_000, startMeter: 412_000 },
      {
        engines: even("H-301", line(6.5, 20.5)),
        occasions: visits("H-301", [0.1, 0.5, 0.9, 1.3, 1.7, 2.1, 2.5, 2.75, 2.95]),
        checks: [{ date: dateAt(2.75), check: "oil-use", result: "suspect", remarks: "1.2 litres to 1,000 km" }],
      },
    ),
    storyUnit(
      { unit: "H-304", depot: "Highcol", yearly: 84_000, startMeter: 376_500 },
      {
        engines: even("H-304", line(3.5, 5.5), [{ cylinder: 5, place: "exhaust", leakage: line(6, 22.6) }]),
        occasions: visits("H-304", [0.12, 0.52, 0.92, 1.32, 1.72, 2.12, 2.52, 2.77, 2.97]),
      },
    ),
    // 11: from the coast to the hills.
    storyUnit(
      { unit: "L-205", depot: "Highcol", yearly: 44_000, startMeter: 52_700 },
      {
        engines: sound("L-205"),
        occasions: [
          ...visits("L-205", [0.16, 0.6, 1.1, 1.55, 2.0]).map((o) => all(o, { depot: "Lowmarsh" })),
          ...visits("L-205", [2.25, 2.55, 2.9]),
        ],
      },
    ),
    // 12: a worn cam lobe: it holds its air but does not fill.
    storyUnit(
      { unit: "P-404", depot: "Highcol", yearly: 640, startMeter: 2_310 },
      {
        engines: even("P-404", line(6, 7.6)).map(({ from, truth }) => ({
          from,
          truth: {
            ...truth,
            filling: truth.filling.map((filling, i) =>
              i === 5
                ? (years: number) => filling(years) * through([0.5, 1], [1.5, 0.93], [2.6, 0.82])(years)
                : filling,
            ),
          },
        })),
        occasions: visits("P-404", [0.12, 0.6, 1.05, 1.5, 2.0, 2.45, 2.9]).map((o, i) =>
          i < 5
            ? o
            : all(o, {
                measures: ["compression-dry", "compression-wet", "leak-down"],
                only: { "compression-wet": [5, 6] },
              }),
        ),
      },
    ),
  ];
}
