import { type ChangeCause, changeCauses, type Explained, statusCauseWords } from "../changes/causes.ts";
import { listDifference } from "../changes/lists.ts";
import type { BridgeCause } from "../schema/bridge.ts";
import type { KeptBudgetBooking, RecordedRepair } from "../schema/kept-budget.ts";
import { dateWords, scopeWords } from "../wording.ts";
import type { InputUnit } from "./inputs.ts";

/** What of a unit's forecast is put down to. */
export type ForecastCause = Exclude<BridgeCause, "prices" | "plan" | "unexplained">;

/** What is known anew of one unit. */
export interface UnitNews {
  /** To what the whole change of its forecast is put down, where it is not assessed in between: the first of `precedence`. */
  readonly forecast: ForecastCause;
  readonly words: readonly string[];
  /** Each cause of which anything is told, in no order. */
  readonly causes: readonly { readonly cause: ForecastCause; readonly words: readonly string[] }[];
}

const causeOf: Readonly<Record<ChangeCause["kind"], ForecastCause>> = {
  engine: "repairs",
  repair: "repairs",
  test: "tests",
  check: "tests",
  limit: "limits",
  use: "use",
  status: "disposals",
  pool: "model",
  program: "model",
  time: "time",
};
/**
 * Not the bridge's own order: whether a unit was stopped weighs before how it was used, for that follows from it; days go by for all
 * units, so time accounts only for one of which nothing else is known.
 */
const precedence: readonly ForecastCause[] = ["repairs", "tests", "limits", "disposals", "use", "model", "time"];

/** Why a unit's forecast is another one, by what each was made from, and by the repairs that were recorded meanwhile. */
export function unitNews(
  was: InputUnit,
  now: InputUnit,
  { from, to, repairs }: { readonly from: string; readonly to: string; readonly repairs: readonly string[] },
): UnitNews {
  const explained = ({ sign }: InputUnit, asOf: string): Explained => ({ ...sign, asOf, because: "" });
  const causes = changeCauses(explained(was, from), explained(now, to));
  const kinds = new Set<ForecastCause>(causes.map(({ kind }) => causeOf[kind]));
  if (repairs.length > 0) kinds.add("repairs");
  const told = causes.filter(({ kind }) => kind !== "time" && (kind !== "repair" || repairs.length === 0));
  return {
    forecast: precedence.find((cause) => kinds.has(cause)) ?? "model",
    words: [...repairs, ...told.map(({ words }) => words)],
    causes: [...kinds].map((cause) => ({
      cause,
      words: [
        ...(cause === "repairs" ? repairs : []),
        ...told.filter(({ kind }) => causeOf[kind] === cause).map(({ words }) => words),
      ],
    })),
  };
}

/**
 * Repairs of a unit that are on file now and were not, or are on file otherwise; in words.
 * @param since the day from which on repairs are kept now: what was before is not taken back
 */
export function repairNews(
  was: readonly RecordedRepair[],
  now: readonly RecordedRepair[],
  since: string,
): readonly string[] {
  const { added, gone } = listDifference(was, now, ({ date, scope, cost, labourHours, downtimeDays }) =>
    JSON.stringify([date, scope, cost, labourHours, downtimeDays ?? null]),
  );
  const isSame = (a: RecordedRepair, b: RecordedRepair) => a.date === b.date && a.scope === b.scope;
  const words = ({ date, scope, cost }: RecordedRepair) =>
    `${scopeWords[scope]} on ${dateWords(date)}${cost === null ? ", its cost not recorded" : ""}`;
  return [
    ...added.map((repair) => {
      const before = gone.find((one) => isSame(one, repair));
      if (before === undefined) return words(repair);
      // An earlier version of the program kept no days of it.
      return `${words(repair)}, ${before.downtimeDays === undefined ? "its days off the road counted now" : "recorded anew"}`;
    }),
    ...gone
      .filter((repair) => repair.date >= since && !added.some((one) => isSame(one, repair)))
      .map((repair) => `${words(repair)} taken back`),
  ];
}

/** How a unit stands otherwise in the fleet than it did. */
export function fleetNews(was: InputUnit | undefined, now: InputUnit | undefined): readonly string[] {
  if (was === undefined) return now === undefined ? [] : ["new in the fleet"];
  if (now === undefined) return ["no longer in the fleet"];
  const [a, b] = [was.outlook, now.outlook];
  const sold =
    b.disposalDate === null ? "no disposal planned any more" : `disposal planned for ${dateWords(b.disposalDate)}`;
  return [
    ...(a.status === b.status ? [] : [statusCauseWords[b.status]]),
    ...(a.disposalDate === b.disposalDate ? [] : [sold]),
    ...(a.depot === b.depot ? [] : [`depot ${b.depot ?? "not told"}`]),
    ...(a.unitClass === b.unitClass ? [] : [`class ${b.unitClass ?? "not told"}`]),
    ...(a.model.id === b.model.id ? [] : [`engine model ${b.model.id}`]),
  ];
}

const scopeName = {
  "top-end": "top-end",
  "bottom-end": "bottom-end",
  both: "both",
  exchange: "exchange engine",
} as const;

/** How a unit is booked otherwise than it was. */
export function planNews(was: readonly KeptBudgetBooking[], now: readonly KeptBudgetBooking[]): readonly string[] {
  const gone = was.filter((one) => !now.some(({ scope, start }) => scope === one.scope && start === one.start));
  const added = now.filter((one) => !was.some(({ scope, start }) => scope === one.scope && start === one.start));
  return [
    ...added.map(({ scope, start }) => {
      const from = gone.find((one) => one.scope === scope);
      return from === undefined
        ? `${scopeName[scope]} booked for ${dateWords(start)}`
        : `${scopeName[scope]} moved from ${dateWords(from.start)} to ${dateWords(start)}`;
    }),
    ...gone
      .filter(({ scope }) => !added.some((one) => one.scope === scope))
      .map(({ scope, start }) => `${scopeName[scope]} of ${dateWords(start)} no longer booked`),
  ];
}
