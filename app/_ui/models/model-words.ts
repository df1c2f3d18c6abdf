import type { EngineModel, LeakDownLimits } from "../../../lib/schema/engine-model.ts";
import type { MeterUnit } from "../../../lib/schema/words.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { countWord, listWords, numberWords, sentenceWords } from "../../../lib/wording.ts";
import { layoutWords, spreadRuleWords } from "./model-fields.ts";

/** What the pages say of an engine model. */

/** The finding of the list: how many models, how many in use, and for how many units. */
export function modelsFinding(models: readonly EngineModel[], units: number): string {
  const retired = models.filter((model) => model.retired).length;
  const inUse = models.length - retired;
  const counted = `${countWord(inUse)} engine ${inUse === 1 ? "model" : "models"}`;
  const rest = retired === 0 ? "" : `, ${countWord(retired)} retired`;
  const ofUnits = units === 0 ? "no unit yet" : `${numberWords(units)} ${units === 1 ? "unit" : "units"}`;
  return `${sentenceWords(counted)} in use${rest}; ${ofUnits}.`;
}

/** "watch 10 %, plan 20 %, limit 30 %" */
export const limitsWords = (f: Formats, { watchPercent, planPercent, limitPercent }: LeakDownLimits): string =>
  `watch ${f.percent(watchPercent)}, plan ${f.percent(planPercent)}, limit ${f.percent(limitPercent)}`;

/** The finding of one model: what its engines are judged on. */
export function judgedWords(f: Formats, { leakDown, compression }: EngineModel): string {
  const parts = [
    leakDown === undefined ? null : `leakage up to ${f.percent(leakDown.limitPercent)}`,
    compression === undefined
      ? null
      : `compression down to ${f.pressure(compression.minimumKpa)} of ${f.pressure(compression.newKpa)}`,
  ].filter((part) => part !== null);
  const only = parts.length === 1 ? `; ${leakDown === undefined ? "leakage" : "compression"} is not judged` : "";
  return `Judged on ${listWords(parts)}${only}.`;
}

/** "4 cylinders in line" */
export const cylindersWords = ({ cylinders, layout }: Pick<EngineModel, "cylinders" | "layout">): string =>
  cylinders === 1 ? "1 cylinder" : `${cylinders} cylinders ${layout === "v" ? "in a V" : layoutWords[layout]}`;

export function tiesInWords({ neighbours, cylinders }: Pick<EngineModel, "neighbours" | "cylinders">): string {
  if (cylinders === 1) return "A single cylinder.";
  if (neighbours.length === 0) return "Separate heads: no two cylinders share a gasket bridge.";
  return `A tie joins cylinders that share a gasket bridge: ${listWords(neighbours.map(([a, b]) => `${a}–\u2060${b}`))}.`;
}

/** The rule on spread, in words; null: none. */
export function spreadWords(f: Formats, compression: NonNullable<EngineModel["compression"]>): string | null {
  const { spreadRule, spreadPercent, spreadKpa } = compression;
  const allowed =
    spreadRule === "absolute"
      ? spreadKpa === undefined
        ? null
        : f.pressure(spreadKpa)
      : spreadPercent === undefined
        ? null
        : f.percent(spreadPercent);
  return allowed === null ? null : `up to ${allowed} ${spreadRuleWords[spreadRule].split(",")[0]}`;
}

/** "every 30,000 km or 365 days, whichever ends first"; null: the fleet's own. `meterUnit` null: its units' differ. */
export function intervalWords(
  f: Formats,
  { testInterval }: Pick<EngineModel, "testInterval">,
  meterUnit: MeterUnit | null,
): string | null {
  const parts = [
    testInterval?.meter === undefined
      ? null
      : meterUnit === null
        ? `${f.number(testInterval.meter)} on the unit’s meter`
        : f.meter(testInterval.meter, meterUnit),
    testInterval?.days === undefined ? null : f.days(testInterval.days),
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : `every ${parts.join(" or ")}`;
}

type Repairs = NonNullable<EngineModel["repairs"]>;
/** Both at once and another engine have no factor of their own. */
type Work = NonNullable<Repairs["both"]> & Partial<Pick<NonNullable<Repairs["topEnd"]>, "unplannedFactor">>;

/**
 * "14 h, parts 900, machining 150, 3 days off the road, 2 working days in a bay, parts in 10 working days, 1.8 times that
 * unplanned"; what is not told is left out.
 */
export function repairCostWords(f: Formats, work: Work): string {
  const { labourHours, parts, machining, downtimeDays, bayDays, leadDays, unplannedFactor } = work;
  const figure = (value: number) => f.number(value, Number.isInteger(value) ? 0 : 1);
  const days = (count: number, what: string) => `${figure(count)} ${count === 1 ? what : `${what}s`}`;
  return [
    `${figure(labourHours)}\u00a0h`,
    `parts ${figure(parts)}`,
    ...(machining === undefined ? [] : [`machining ${figure(machining)}`]),
    `${days(downtimeDays, "day")} off the road`,
    ...(bayDays === undefined ? [] : [`${days(bayDays, "working day")} in a bay`]),
    ...(leadDays === undefined ? [] : [`parts in ${days(leadDays, "working day")}`]),
    ...(unplannedFactor === undefined ? [] : [`${figure(unplannedFactor)} times that unplanned`]),
  ].join(", ");
}
