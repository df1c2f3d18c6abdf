import type { WarningLine } from "@/lib/schema/report.ts";
import type { Formats } from "@/lib/viewing/formats.ts";

/** "4.0 points" of leakage, "6.0 %" of the compression expected. */
export const deviationWords = (f: Formats, { measure }: Pick<WarningLine, "measure">, value: number): string =>
  measure === "leak-down" ? `${f.number(value, 1)}\u00a0points` : f.percent(value, 1);

const scaleOf = {
  "leak-down": "points of leakage",
  "compression-dry": "per cent of the compression expected",
} as const;

/** What a cylinder of an engine with so many is held against. */
export const heldAgainst = (cylinders: number): string =>
  cylinders === 1 ? "its own earlier course" : "its siblings and its own earlier course";

/** What the columns of the early warnings say. */
export function warningNote(warnings: readonly Pick<WarningLine, "measure">[], cylinders: number): string {
  const scales = (["leak-down", "compression-dry"] as const).flatMap((measure) =>
    warnings.some((one) => one.measure === measure) ? [scaleOf[measure]] : [],
  );
  return `Worse than expected: how far the first such reading lay beyond what ${heldAgainst(cylinders)} let expect, in ${scales.join(", or in ")}. Usual scatter: how far readings of a sound cylinder lie from that, as one standard deviation. Evidence: what the tests up to then add up to, in usual scatters; it tells as soon as it passes the limit. A later reading that is back ${cylinders === 1 ? "on that course" : "among the siblings"} takes the warning away.`;
}
