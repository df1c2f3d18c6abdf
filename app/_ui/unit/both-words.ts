import type { UnitAssessment } from "@/lib/schema/assessment.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { monthCountWords } from "@/lib/wording.ts";

const names = { topEnd: "top-end", bottomEnd: "bottom-end" } as const;

/** How likely the second class of repair falls due soon after the first; null: nothing tells. */
export function bothWords({ bothTogether, repairs, cylinders }: UnitAssessment, f: Formats): string | null {
  if (bothTogether == null) return null;
  const { first, months, probability } = bothTogether;
  const other = first === "topEnd" ? "bottomEnd" : "topEnd";
  if (repairs[first].status === "crossed" && repairs[other].status === "crossed") {
    return "Both together: both classes of repair are due now.";
  }
  const begin = repairs[first].status === "crossed" ? "now that" : "once";
  // However small, it is never none.
  const chance = f.probability(Math.max(probability, 1e-4));
  // Two faults at once and two repairs at once are two things, and stand on one page.
  const isFaultTold = cylinders.some(({ together }) => together != null);
  const apart = isFaultTold && probability < 0.5 ? "; a second fault that is there but small makes none due" : "";
  return `Both together: ${begin} the ${names[first]} repair is due, the chance that a ${names[other]} one falls due within ${monthCountWords(months)} is ${chance}${apart}.`;
}
