import type { UnitAssessment } from "@/lib/schema/assessment.ts";
import type { Formats } from "@/lib/viewing/formats.ts";
import { monthCountWords } from "@/lib/wording.ts";

const names = { topEnd: "top-end", bottomEnd: "bottom-end" } as const;

/** How likely the second class of repair falls due soon after the first; null: nothing tells. */
export function bothWords({ bothTogether, repairs }: UnitAssessment, f: Formats): string | null {
  if (bothTogether == null) return null;
  const { first, months, probability } = bothTogether;
  const other = first === "topEnd" ? "bottomEnd" : "topEnd";
  if (repairs[first].status === "crossed" && repairs[other].status === "crossed") {
    return "Both together: both classes of repair are due now.";
  }
  const begin = repairs[first].status === "crossed" ? "now that" : "once";
  return `Both together: ${begin} the ${names[first]} repair is due, the chance that a ${names[other]} one falls due within ${monthCountWords(months)} is ${f.probability(probability)}.`;
}
