import type { Crossing, UnitAssessment } from "../schema/assessment.ts";
import { cylinderWords } from "../wording.ts";

type Ends = Pick<Crossing, "date">;

const ends = ["p10", "p50", "p90"] as const;

/** Those with a likely date first, then those with an early one. */
const order = ({ date: { p10, p50 } }: Ends): string => p50 ?? `~${p10 ?? "~"}`;

/** The soonest crossing of a limit, and the cylinders that have it; null: none is foreseen. */
function soonestCrossing({ cylinders }: Pick<UnitAssessment, "cylinders">) {
  const foreseen = cylinders
    .flatMap(({ cylinder, measures }) =>
      measures.flatMap(({ crossing }) => (crossing?.status === "projected" ? [{ cylinder, crossing }] : [])),
    )
    .filter(({ crossing }) => crossing.date.p10 !== null)
    .toSorted((a, b) => (order(a.crossing) < order(b.crossing) ? -1 : 1));
  const [first] = foreseen;
  if (first === undefined) return null;
  const alike = foreseen.filter(({ crossing }) => ends.every((end) => crossing.date[end] === first.crossing.date[end]));
  return { crossing: first.crossing, cylinders: [...new Set(alike.map(({ cylinder }) => cylinder))] };
}

/**
 * When a limit is met whichever class of repair that calls for, where the windows of the classes say less: a limit that is met with
 * certainty, half of it by the one class and half by the other, has a late end that neither class has.
 * null: the window that is told says as much.
 * @param first the window that is told first; null: no class of repair is foreseen
 * @param say a window as a clause
 */
export function eitherRepairSentence(
  assessment: Pick<UnitAssessment, "cylinders">,
  first: Ends | null,
  say: (crossing: Ends) => string,
): string | null {
  const soonest = soonestCrossing(assessment);
  if (soonest === null) return null;
  const { crossing, cylinders } = soonest;
  const saysMore = ends.some((end) => crossing.date[end] !== null && (first === null || first.date[end] === null));
  if (!saysMore) return null;
  const who = assessment.cylinders.length === 1 ? "the cylinder" : cylinderWords(cylinders);
  const verb = cylinders.length === 1 ? "meets its limit" : "meet their limit";
  return `Whichever class of repair that calls for, ${who} ${verb} ${say(crossing)}.`;
}
