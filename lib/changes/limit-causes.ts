import type { BasisLimits } from "../schema/changes.ts";
import type { LeakDownLimits } from "../schema/engine-model.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import { listWords, monthCountWords, numberWords } from "../wording.ts";

/** "from 30 to 28 %", "set to 28 %", "withdrawn". `words` with more decimals where the two would read alike. */
function fromTo(was: number | null, now: number | null, words: (value: number, digits: number) => string): string {
  if (now === null) return "withdrawn";
  if (was === null) return `set to ${words(now, 0)}`;
  const digits = [0, 1, 2, 3].find((d) => words(was, d) !== words(now, d)) ?? 4;
  const [before, after] = [words(was, digits), words(now, digits)];
  const unit = / \D+$/.exec(after)?.[0] ?? "";
  return `from ${unit !== "" && before.endsWith(unit) ? before.slice(0, -unit.length) : before} to ${after}`;
}

/** To at least so many decimals as the value needs to be told from a whole one. */
const percent = (value: number, digits: number): string =>
  `${numberWords(value, Math.max(digits, Number.isInteger(value) ? 0 : 1))} %`;

function leakDownCauses(name: string, was: LeakDownLimits | null, now: LeakDownLimits | null): readonly string[] {
  const levels = [
    ["limit", was?.limitPercent, now?.limitPercent],
    ["plan level", was?.planPercent, now?.planPercent],
    ["watch level", was?.watchPercent, now?.watchPercent],
  ] as const;
  const moved = levels.flatMap(([level, before, after]) =>
    before === after ? [] : [`${level} ${fromTo(before ?? null, after ?? null, percent)}`],
  );
  return moved.length === 0 ? [] : [`${name} ${listWords(moved)}`];
}

/** What is different about the model's limits, each as a part of a sentence; empty: nothing. */
export function limitCauses(was: BasisLimits, now: BasisLimits): readonly string[] {
  return [
    ...leakDownCauses("leakage", was.leakDown, now.leakDown),
    ...leakDownCauses("valve leakage", was.valves, now.valves),
    ...(was.minimumKpa === now.minimumKpa
      ? []
      : [
          `minimum compression ${fromTo(was.minimumKpa, now.minimumKpa, (kpa, digits) => `${numberWords(kpa, digits)} kPa`)}`,
        ]),
    ...(was.spread === now.spread ? [] : ["rule on spread changed"]),
  ];
}

/** What is different about the fleet's settings that a band or a window hangs on. */
export function settingCauses(was: AssessmentSettings, now: AssessmentSettings): readonly string[] {
  const cause = (
    name: string,
    of: "leadTimeMonths" | "togetherMonths" | "planProbability" | "watchProbability" | "horizonYears",
    words: (value: number, digits: number) => string,
  ) => {
    // What was kept before there was such a setting lacks it, and is not compared.
    const before: number | undefined = was[of];
    return before === undefined || before === now[of] ? [] : [`${name} ${fromTo(before, now[of], words)}`];
  };
  return [
    ...cause("planning lead time", "leadTimeMonths", monthCountWords),
    ...cause("chance that makes a unit one to plan", "planProbability", (share, digits) =>
      percent(Number((100 * share).toFixed(6)), digits),
    ),
    ...cause("chance that puts a unit on watch", "watchProbability", (share, digits) =>
      percent(Number((100 * share).toFixed(6)), digits),
    ),
    ...cause("span for both repairs together", "togetherMonths", monthCountWords),
    ...cause("horizon", "horizonYears", yearWords),
  ];
}

/** "3 years", "2.5 years", "1 year" */
const yearWords = (years: number, digits: number): string =>
  `${numberWords(years, Math.max(digits, Number.isInteger(years) ? 0 : 1))} ${years === 1 ? "year" : "years"}`;
