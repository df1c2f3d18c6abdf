import { addMonths } from "../calendar.ts";
import type { UnitOutlook } from "../plan/problem-of.ts";
import { bridgeCauses } from "../schema/bridge.ts";
import type { AssessmentBasis, BasisCheck, BasisTest } from "../schema/changes.ts";
import type { FleetFacts } from "../schema/facts.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import { type ForecastCause, repairNews, type UnitNews, unitNews } from "./bridge-causes.ts";
import { type BudgetInputs, type InputUnit, monthsOfRepairs } from "./inputs.ts";

/**
 * What a unit's forecast is in between, where several causes moved it: it is assessed with the causes put in up to one, and those after
 * it not. What can be undone of today's facts for that are tests, limits, readings of the meter and the standing of the unit; what
 * sister engines show (the pools) is put in before them, for the pools of then are not kept.
 */

/** Of an assessment, what a budget is drawn from. */
export type StageForecast = Pick<UnitOutlook, "pastLimit" | "fromModel" | "ageDays">;

/** By unit, the forecast once a cause is put in; of a unit that could not be assessed so: an empty one. */
export type MixedForecasts = ReadonlyMap<string, ReadonlyMap<ForecastCause, StageForecast>>;

export interface MixStage {
  readonly cause: ForecastCause;
  /** Causes that are not put in yet. */
  readonly undone: ReadonlySet<ForecastCause>;
}

/** A unit of both budgets whose forecast several causes moved, and the stages that it is to be assessed in. */
export interface UnitToMix {
  readonly was: InputUnit;
  readonly now: InputUnit;
  readonly stages: readonly MixStage[];
}

const inOrder = (causes: readonly ForecastCause[]): readonly ForecastCause[] =>
  bridgeCauses.flatMap((cause) => causes.find((one) => one === cause) ?? []);

/**
 * The causes of a unit that are put in by themselves, in their order: those that are told, but for time; where it was repaired what
 * sister engines show comes with the repair.
 */
export function causesPutIn({ causes }: Pick<UnitNews, "causes">): readonly ForecastCause[] {
  const all = inOrder(causes.map(({ cause }) => cause)).filter((cause) => cause !== "time");
  return all.includes("repairs") ? all.filter((cause) => cause !== "model") : all;
}

/** The units that several causes moved, by name. */
export function unitsToMix(was: BudgetInputs, now: BudgetInputs): ReadonlyMap<string, UnitToMix> {
  const before = new Map(was.units.map((unit) => [unit.outlook.unit, unit]));
  const since = addMonths(now.asOf, -monthsOfRepairs);
  const made = ({ repairs }: BudgetInputs, unit: string) => repairs.filter((one) => one.unit === unit);
  const mixed = new Map<string, UnitToMix>();
  for (const unit of now.units) {
    const { unit: name } = unit.outlook;
    const then = before.get(name);
    if (then === undefined) continue;
    const repairs = repairNews(made(was, name), made(now, name), since);
    const news = unitNews(then, unit, { from: was.asOf, to: now.asOf, repairs });
    const causes = causesPutIn(news);
    if (causes.length < 2) continue;
    const others = was.asOf === now.asOf ? "model" : "time";
    mixed.set(name, { was: then, now: unit, stages: stagesOf(causes, { was: then, now: unit, others }) });
  }
  return mixed;
}

/** @param others the cause that what is left is put down to once all causes are undone */
function stagesOf(
  causes: readonly ForecastCause[],
  { was, now, others }: { readonly was: InputUnit; readonly now: InputUnit; readonly others: ForecastCause },
): readonly MixStage[] {
  const isFirst = causes[0] === "repairs" || causes[0] === "model";
  const stages = [
    ...(isFirst ? [] : [{ cause: others, undone: new Set(causes) }]),
    ...causes.slice(0, -1).map((cause, i) => ({ cause, undone: new Set(causes.slice(i + 1)) })),
  ];
  return stages.filter(({ undone }) => [...undone].every((cause) => canUndo(cause, was, now)));
}

function canUndo(
  cause: ForecastCause,
  { outlook, sign: was }: InputUnit,
  { outlook: other, sign: now }: InputUnit,
): boolean {
  const [a, b] = [was.basis, now.basis];
  // Of another engine or another model, what was known then tells nothing of what is known now.
  if (a === null || b === null || a.engineSerial !== b.engineSerial || outlook.model.id !== other.model.id)
    return false;
  if (cause === "limits") return true;
  if (cause === "use") return a.lastRead !== undefined && a.meterUnit === b.meterUnit;
  if (cause === "disposals") return a.status !== undefined;
  return cause === "tests" && a.tests !== undefined && b.tests !== undefined && isOnlyAdded(a, b);
}

const testAt = ({ date, measure, attempt }: BasisTest): string => JSON.stringify([date, measure, attempt]);
const checkAt = ({ date, check, cylinder }: BasisCheck): string => JSON.stringify([date, check, cylinder]);

/** Whether tests and checks were added or judged since, and none corrected or taken back. */
function isOnlyAdded(was: AssessmentBasis, now: AssessmentBasis): boolean {
  const checks = new Set((now.checks ?? []).map(checkAt));
  return (
    (was.tests ?? []).every((test) => {
      const same = now.tests?.filter((one) => testAt(one) === testAt(test) && one.readings === test.readings) ?? [];
      return same.some(({ judged }) => judged === test.judged) || (same.length > 0 && test.judged === undefined);
    }) && (was.checks ?? []).every((check) => checks.has(checkAt(check)))
  );
}

/** Today's facts without what some causes brought of a unit; limits are those of the engine model as it was. */
export function factsWithout(
  facts: FleetFacts,
  { was: { outlook, sign } }: UnitToMix,
  undone: ReadonlySet<ForecastCause>,
): FleetFacts {
  const { unit, model } = outlook;
  const basis = sign.basis;
  if (basis === null) return facts;
  const own = <F extends { readonly unit: string }>(all: readonly F[], isKept: (fact: F) => boolean): readonly F[] =>
    all.filter((fact) => fact.unit !== unit || isKept(fact));
  let without = facts;
  if (undone.has("limits"))
    without = { ...without, models: without.models.map((one) => (one.id === model.id ? model : one)) };
  if (undone.has("tests")) {
    const tests = new Map((basis.tests ?? []).map((test) => [testAt(test), test]));
    const checks = new Set((basis.checks ?? []).map(checkAt));
    const known = (of: { readonly date: string; readonly test: BasisTest["measure"]; readonly attempt: number }) =>
      tests.get(JSON.stringify([of.date, of.test, of.attempt]));
    without = {
      ...without,
      tests: own(without.tests, (test) => known(test) !== undefined),
      checks: own(without.checks, (check) => checks.has(checkAt(check))),
      judgements: own(without.judgements, (judgement) => known(judgement)?.judged !== undefined),
    };
  }
  if (undone.has("use")) {
    const last = basis.lastRead?.date ?? "";
    without = { ...without, meterReadings: own(without.meterReadings, ({ date }) => date <= last) };
  }
  if (undone.has("disposals")) {
    const units = without.units.map((one) => (one.unit === unit ? { ...one, status: basis.status ?? null } : one));
    without = { ...without, units };
  }
  return without;
}

/** Today's settings, or those of then where limits are undone. */
export const settingsWithout = (
  settings: AssessmentSettings,
  { was }: UnitToMix,
  undone: ReadonlySet<ForecastCause>,
): AssessmentSettings => (undone.has("limits") ? { ...settings, ...was.sign.basis?.settings } : settings);
