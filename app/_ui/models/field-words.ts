import { evidenceTitle } from "../../../lib/cause/evidence-titles.ts";
import { causeLabel } from "../../../lib/cause/words.ts";
import { evidenceIds } from "../../../lib/schema/evidence-ids.ts";
import { causes } from "../../../lib/schema/words.ts";

/** Fields of an engine model as its form calls them, by their path in the file; a field of no form keeps its path. */
export const modelFieldWords = (path: string): string =>
  words[path] ?? evidenceFieldWords(path) ?? sharesFieldWords(path) ?? path;

/** Whether a field is a likelihood of a finding or the share of a cause, which are told in per cent and kept as shares. */
export const isLikelihood = (path: string): boolean =>
  /^(evidence\.[^.]+\.likelihoods|causeShares\.shares)\.[^.]+$/.test(path);

/** "finding “air heard at the exhaust”: piston, %" */
function evidenceFieldWords(path: string): string | null {
  const [part, finding, field, of] = path.split(".");
  const id = evidenceIds.find((one) => one === finding);
  if (part !== "evidence" || id === undefined) return null;
  const cause = causes.find((one) => one === of);
  return `finding “${evidenceTitle(id)}”: ${cause === undefined ? field : `${causeLabel(cause).toLowerCase()}, %`}`;
}

/** "before anything is seen: piston, %" */
function sharesFieldWords(path: string): string | null {
  const [part, field, of] = path.split(".");
  if (part !== "causeShares") return null;
  const cause = causes.find((one) => one === of);
  return `before anything is seen: ${cause === undefined ? field : `${causeLabel(cause).toLowerCase()}, %`}`;
}

const limits = (of: string, where: string) => ({
  [`${of}.watchPercent`]: `${where}, watch, %`,
  [`${of}.planPercent`]: `${where}, plan, %`,
  [`${of}.limitPercent`]: `${where}, limit, %`,
});

const repair = (of: string, which: string) => ({
  [`repairs.${of}.labourHours`]: `${which}, labour, h`,
  [`repairs.${of}.parts`]: `${which}, parts`,
  [`repairs.${of}.machining`]: `${which}, machining`,
  [`repairs.${of}.downtimeDays`]: `${which}, days off road`,
  [`repairs.${of}.bayDays`]: `${which}, working days in a bay`,
  [`repairs.${of}.leadDays`]: `${which}, working days until parts can be had`,
  [`repairs.${of}.unplannedFactor`]: `${which}, times as dear unplanned`,
});

const words: Readonly<Record<string, string>> = {
  neighbours: "gasket bridges",
  cooling: "cooled by",
  wetTest: "wet test allowed",
  "compression.newKpa": "compression, new, kPa",
  "compression.minimumKpa": "compression, minimum, kPa",
  "compression.spreadRule": "spread rule",
  "compression.spreadPercent": "spread, %",
  "compression.spreadKpa": "spread, kPa",
  "compression.referenceRpm": "cranking speed, rpm",
  ...limits("leakDown", "leakage"),
  ...limits("leakDown.valves", "leakage at valves or gasket"),
  "leakDown.orificeMm": "tester, bore, mm",
  "leakDown.supplyKpa": "tester, supply, kPa",
  ...repair("topEnd", "top-end repair"),
  ...repair("bottomEnd", "bottom-end repair"),
  ...repair("both", "both repairs at once"),
  ...repair("exchange", "another engine"),
  "testInterval.meter": "test interval by meter",
  "testInterval.days": "test interval by days",
};
