import type { UnitAssessment } from "../schema/assessment.ts";
import type { IsoDate } from "../schema/facts.ts";
import { dateWords, monthCountWords, monthWords, probabilityWords } from "../wording.ts";

/** From this chance on that the second class of repair follows soon, both are advised together. Judgement. */
const worthTogether = 0.5;

const names = { topEnd: "top-end", bottomEnd: "bottom-end" } as const;

/** Why two repairs are better made as one; common practice, no source, and of ring wear debated. */
const whyTogether = {
  topEnd:
    "A bottom-end repair contains a top-end one, so the head would come off twice; a top-end repair does not reset ring wear, which may show more once the valves are tight.",
  bottomEnd: "A bottom-end repair contains a top-end one: valves and seats cost little more while the head is off.",
} as const satisfies Record<"topEnd" | "bottomEnd", string>;

/**
 * That both classes of repair are better made together, and why, in two or three sentences. null: the second is not
 * likely to follow within the chosen span, or nothing tells.
 */
export function togetherWords({ bothTogether, repairs }: UnitAssessment, asOf: IsoDate): string | null {
  if (bothTogether == null || bothTogether.probability < worthTogether) return null;
  const { first, months, probability } = bothTogether;
  const other = first === "topEnd" ? "bottomEnd" : "topEnd";
  if ([repairs.topEnd, repairs.bottomEnd].every((c) => c.status === "crossed")) {
    return `Both together: both classes of repair are due now. ${whyTogether.bottomEnd}`;
  }
  const likely = repairs[first].date.p50;
  const when = likely === null || likely <= asOf ? "is due now" : `is likely in ${monthWords(likely)}`;
  return `Both together: the ${names[first]} repair ${when}, and the chance that a ${names[other]} one is due within ${monthCountWords(months)} of it is ${probabilityWords(probability)}. ${whyTogether[first]}`;
}

/**
 * Said where a class of repair is foreseen, but likely only after the unit is planned to be sold: "Sold before: planned for
 * disposal on 31 Dec 2026, ahead of the likely date of a top-end repair (Jun 2027); no overhaul is asked for." null: not so.
 */
export function soldBeforeWords(assessment: UnitAssessment): string | null {
  const { soldBefore, repairs } = assessment;
  if (soldBefore == null) return null;
  const after = (["topEnd", "bottomEnd"] as const).filter((side) => soldBefore[side]);
  if (after.length === 0) return null;
  const parts = after.map((side) => {
    const { p50 } = repairs[side].date;
    return `a ${names[side]} repair (${p50 === null ? "beyond the horizon" : monthWords(p50)})`;
  });
  const none = isNoRepairDue(assessment) ? "no overhaul" : `no ${after.map((side) => names[side]).join(" or ")} repair`;
  return `Sold before: planned for disposal on ${dateWords(soldBefore.date)}, ahead of the likely date of ${parts.join(" and of ")}; ${none} is asked for.`;
}

/** No class of repair is likely to fall due before the unit is planned to be sold. */
export const isNoRepairDue = ({ soldBefore, repairs, band }: UnitAssessment): boolean =>
  soldBefore != null &&
  band !== "past-limit" &&
  [repairs.topEnd, repairs.bottomEnd].every(({ date: { p50 } }) => p50 === null || p50 > soldBefore.date);
