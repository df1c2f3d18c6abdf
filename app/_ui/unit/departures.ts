import type { TestLine, WarningLine } from "@/lib/schema/report.ts";
import type { Domain } from "./axis.ts";
import { onLevelAxis } from "./trend-parts.ts";
import type { TrendSource } from "./trend-source.ts";

/** The test at which a cylinder left its family, as a place in the chart. */
export interface Departure {
  readonly cylinder: number;
  readonly x: number;
  readonly date: string;
  readonly value: number;
}

/** Where the early warnings of the chart's measure stand; ascending by meter. One whose reading is not drawn has no place. */
export function departures({ chart, warnings }: Pick<TrendSource, "chart" | "warnings">, yDomain: Domain): Departure[] {
  return warnings
    .flatMap(({ cylinder, x, date }) => {
      const points = chart.cylinders.find((c) => c.cylinder === cylinder)?.points ?? [];
      const point = points.find((p) => p.x === x && p.date === date);
      return point === undefined ? [] : [{ cylinder, x, date, value: onLevelAxis(yDomain, point.value) }];
    })
    .toSorted((a, b) => a.x - b.x || a.cylinder - b.cylinder);
}

/** "cylinder 3 left its family", "the cylinder left its own course": what an early warning says, by the engine's cylinders. */
export const departureWords = (departed: readonly number[], cylinders: number): string =>
  cylinders === 1
    ? "the cylinder left its own course"
    : departed.length === 1
      ? `cylinder ${departed.join()} left its family`
      : `cylinders ${departed.join(", ")} left their family`;

/** The cylinders that left their family at this test. */
export function departedAt(
  { measure, date, x, entered }: Pick<TestLine, "measure" | "date" | "x" | "entered">,
  warnings: readonly Pick<WarningLine, "measure" | "cylinder" | "date" | "x">[],
): number[] {
  return warnings
    .filter((one) => one.measure === measure && one.date === date && one.x === x)
    .map((one) => one.cylinder)
    .filter((cylinder) => entered.some((e) => e.cylinder === cylinder));
}
