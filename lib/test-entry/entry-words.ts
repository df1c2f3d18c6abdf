import { cylinderWords, numberWords, sentenceWords } from "../wording.ts";
import { type EntryTerms, heldAt } from "./entry.ts";
import type { EntryFinding, OtherScale } from "./judge-entry.ts";

/** What a finding is to the page: not taken, asked about before it is kept, or only told. */
export const severityOf = ({ code }: EntryFinding): "refused" | "asked" | "told" =>
  code === "impossible" ? "refused" : code === "past-limit" ? "told" : "asked";

const scaleWords = {
  kPa: "if the gauge reads in kPa",
  bar: "if the gauge reads in bar",
  psi: "if the gauge reads in psi",
  "kgf/cm2": "if the gauge reads in kgf/cm2",
  "held-of-80": "if it is the pressure held of 80",
  "held-percent": "if it is what the cylinder holds, not what it loses",
} as const satisfies Record<OtherScale, string>;

/**
 * A finding as one or two sentences for the person at the engine: what, against what, and what to do. Figures in kPa or %,
 * as all kept sentences have them; of a tester that shows what the cylinder holds, beside what its gauge reads.
 */
export function entryWords(finding: EntryFinding, terms: EntryTerms): string {
  const isLeakDown = terms.test === "leak-down";
  const unit = isLeakDown ? "%" : "kPa";
  const figure = (level: number) => {
    const tenths = Math.round(level * 10) / 10;
    return numberWords(tenths, isLeakDown && !Number.isInteger(tenths) ? 1 : 0);
  };
  const level = (value: number) => `${figure(value)} ${unit}`;
  const held = (...levels: readonly number[]) => heldWords(levels, terms);
  switch (finding.code) {
    case "impossible":
      return `${sentenceWords(finding.why)}.`;
    case "other-unit":
      return `Near the ${level(finding.near)} expected only ${scaleWords[finding.unit]} (then ${level(finding.reads)}): check the unit.`;
    case "far":
      return `Far from the last test (${held(finding.from, finding.to)}${figure(finding.from)} to ${level(finding.to)}): ${farAdvice(isLeakDown, finding)}`;
    case "not-at-top":
      return `${level(finding.to)} is mostly a valve still open: come up to top dead centre on compression again, hold the crankshaft, and measure again.`;
    case "no-loss":
      return `${level(finding.to)} is too good to be true: check that the gauge is zeroed and no valve core shuts the hose, and measure again.`;
    case "above-others":
      return `Far above the other cylinders (highest ${level(finding.highest)}, this one ${level(finding.to)}): oil, fuel or carbon in it, or a slip. Measure again.`;
    case "above-new":
      return `Above the ${level(finding.newKpa)} of a new engine (${level(finding.to)}): check gauge and unit, and measure again.`;
    case "first-stroke-above":
      return `The first stroke reads above the final value (${figure(finding.first)} and ${level(finding.to)}): are the two swapped?`;
    case "copied":
      return `${sentenceWords(cylinderWords(finding.cylinders.toSorted((a, b) => a - b)))} read as at the last test to the last digit: were they read from the gauge?`;
    case "past-limit":
      return `At or past the limit (${held(finding.limit)}${level(finding.limit)}): measure it a second time to be sure.`;
  }
}

/** "held 74 to 50 of 80: ", in the gauge's own unit, which is not told again; empty: the gauge shows what is lost. */
function heldWords(levels: readonly number[], terms: EntryTerms): string {
  const each = levels.map((level) => heldAt(level, terms)).filter((one) => one !== null);
  const [first] = each;
  if (first === undefined) return "";
  const figures = each.map(({ held, decimals }) => numberWords(held, decimals)).join(" to ");
  return `held ${figures} of ${numberWords(first.supply, first.decimals)}: `;
}

function farAdvice(isLeakDown: boolean, { from, to }: { readonly from: number; readonly to: number }): string {
  if (isLeakDown) {
    return to > from
      ? "check the hose and top dead centre, and measure again."
      : "check that the gauge is zeroed and no valve core shuts the hose, and measure again.";
  }
  return to < from
    ? "check the adaptor and measure again."
    : "check the gauge, and for oil or fuel in the cylinder, and measure again.";
}
