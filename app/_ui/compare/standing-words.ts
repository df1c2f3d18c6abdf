import type { ComparedModel, UnitStanding } from "../../../lib/schema/comparison.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords } from "../../../lib/wording.ts";

/** "all 11 of its sisters", "10 of its 11 sisters" */
export function slowerWords(f: Formats, { slower, sisters }: Pick<UnitStanding, "slower" | "sisters">): string {
  if (sisters === 0) return "no sister: none has a rate yet";
  const all = f.number(sisters);
  return slower === sisters && sisters > 1 ? `all ${all} of its sisters` : `${f.number(slower)} of its ${all} sisters`;
}

/** What makes a unit stand out, for a table; empty: nothing does. */
export function standOutWords({ fast, beyondBand }: Pick<UnitStanding, "fast" | "beyondBand">): string {
  if (fast) return beyondBand ? "declines fast, and reads beyond the band" : "declines fast";
  return beyondBand ? "reads beyond the band" : "";
}

const mostNamed = 5;

/** The page's first sentence: of the chosen units, or of the model. */
export function compareFinding(f: Formats, of: ComparedModel, chosen: readonly UnitStanding[]): string {
  const [one] = chosen;
  if (chosen.length === 1 && one !== undefined) return unitFinding(f, one);
  const { standingOut, units, modelName } = of;
  if (units === 1) return `${modelName}: only one unit was tested, so it has no sister to stand beside.`;
  if (standingOut.length === 0) return `${modelName}: none of ${f.number(units)} units stands out from its sisters.`;
  const named = standingOut.length > mostNamed ? "" : `: ${listWords(standingOut)}`;
  const stand = standingOut.length === 1 ? "stands out from its" : "stand out from their";
  return `${modelName}: ${f.words(countWord(standingOut.length))} of ${f.number(units)} units ${stand} sisters${named}.`;
}

function unitFinding(f: Formats, standing: UnitStanding): string {
  const { unit, sisters, fast, beyondBand } = standing;
  if (sisters === 0) return `${unit} has no sister with a rate of its own to stand beside.`;
  const beyond = beyondBand ? " Its last two tests read worse than 9 in 10 sisters at the same meter reading." : "";
  const speed = `${unit} declines faster than ${slowerWords(f, standing)}`;
  if (fast) return `${speed}.${beyond}`;
  return beyondBand ? `${speed}.${beyond}` : `${speed}: it does not stand out.`;
}
