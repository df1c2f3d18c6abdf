import { probabilityWithinDays } from "../projection/crossing.ts";
import { type Telling, toldProbability } from "../projection/tell.ts";
import type { UnitAssessment } from "../schema/assessment.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import type { Band } from "../schema/words.ts";
import { monthCountWords, percentWords, probabilityWords } from "../wording.ts";
import type { RepairWindows } from "./unit.ts";

type AsAWhole = NonNullable<UnitAssessment["asAWhole"]>;

const names = { topEnd: "top-end repair", bottomEnd: "bottom-end repair" } as const;

/**
 * The class of repair that a unit as a whole is as likely to need within the lead time as a cylinder that is to plan, while
 * each of its cylinders is less likely by itself: bands are judged by cylinder (contract, section 5), windows are the unit's.
 * null: not so, or its band says as much already.
 */
export function wholeUnitChance(
  band: Band | null,
  windows: Pick<RepairWindows, "topEndDistribution" | "bottomEndDistribution">,
  told: {
    readonly telling: Telling;
    readonly settings: Pick<AssessmentSettings, "planProbability" | "leadTimeMonths">;
    readonly leadDays: number;
  },
): AsAWhole | null {
  if (band !== "watch" && band !== "sound") return null;
  const { telling, settings, leadDays } = told;
  const chances = (["topEnd", "bottomEnd"] as const).map((repair) => {
    const distribution = windows[`${repair}Distribution`];
    const within = distribution === null ? 0 : probabilityWithinDays(distribution, telling.use, leadDays);
    return { repair, months: settings.leadTimeMonths, probability: toldProbability(within) };
  });
  const [most] = chances.toSorted((a, b) => b.probability - a.probability);
  return most !== undefined && most.probability >= settings.planProbability ? most : null;
}

/** "any of its cylinders: chance of a bottom-end repair within 12 months 34 %, though of none by itself 30 %" */
export const wholeUnitReason = (
  asAWhole: AsAWhole | null,
  { planProbability }: Pick<AssessmentSettings, "planProbability">,
): string | null =>
  asAWhole === null
    ? null
    : `of all cylinders together: chance of a ${names[asAWhole.repair]} within ${monthCountWords(asAWhole.months)} ${probabilityWords(asAWhole.probability)}, but of none by itself ${percentWords(100 * planProbability)}, from which on it is to plan`;

/** The same as a sentence of the finding. null: nothing to tell. */
export const wholeUnitSentence = ({ asAWhole }: UnitAssessment): string | null =>
  asAWhole == null
    ? null
    : `Some cylinder or other needs the ${names[asAWhole.repair]} within ${monthCountWords(asAWhole.months)} with a chance of ${probabilityWords(asAWhole.probability)}; none is likely enough by itself for the unit to be to plan.`;
