import { addMonths, daysBetween } from "../calendar.ts";
import { bandOfMeasure, worstBand } from "../condition/band.ts";
import { givesBaseline } from "../condition/lives.ts";
import { worseSign } from "../condition/series.ts";
import { noTest } from "../condition/test-due.ts";
import { followsWithin } from "../projection/both-together.ts";
import { crossedNow, probabilityWithinDays } from "../projection/crossing.ts";
import { expectedRate } from "../projection/project.ts";
import { firstCrossingOfClass, soonerOf, type WindowMember } from "../projection/repair-window.ts";
import { type Telling, tellCrossed, tellCrossing, tellTooFewTests, toldProbability } from "../projection/tell.ts";
import type { CrossingDistribution } from "../projection/types.ts";
import type { Crossing, CylinderAssessment, MeasureAssessment, UnitAssessment } from "../schema/assessment.ts";
import type { IsoDate } from "../schema/facts.ts";
import type { WindowDates } from "../schema/report.ts";
import type { AssessmentSettings } from "../schema/settings.ts";
import type { JudgedMeasure } from "../schema/words.ts";
import { normalQuantile } from "../statistics/normal.ts";
import type { CylinderState, EngineState, MeasureState } from "./engine.ts";
import { rounded, roundedRate, roundedReading, unitOf } from "./rounding.ts";

const z90 = normalQuantile(0.9);

/** The repair windows of a unit, as told and as distributions. */
export interface RepairWindows {
  readonly topEnd: Crossing;
  readonly bottomEnd: Crossing;
  /** null: nothing to go by. */
  readonly topEndDistribution: CrossingDistribution | null;
  readonly bottomEndDistribution: CrossingDistribution | null;
  /** Which class is likely first, and the chance that the other is due soon after it; null: nothing to go by. */
  readonly bothTogether: NonNullable<UnitAssessment["bothTogether"]> | null;
  /** Planned disposal still to come, and the classes whose likely date lies after it; null: none is planned. */
  readonly soldBefore: NonNullable<UnitAssessment["soldBefore"]> | null;
  /** What the model's pool alone foresees, for a class of repair of which the tests give no window; else without dates. */
  readonly fromModel: { readonly topEnd: WindowDates; readonly bottomEnd: WindowDates };
  /** The same as distributions; null: the tests give a window of their own, or the pool foresees nothing. */
  readonly fromModelDistributions: {
    readonly topEnd: CrossingDistribution | null;
    readonly bottomEnd: CrossingDistribution | null;
  };
}

const rateOf = (state: MeasureState): MeasureAssessment["rate"] => {
  if (state.wear.branches.length === 0) return null;
  const { mean, variance } = expectedRate(state.wear.branches, state.scale);
  const perThousand = 1000 * worseSign[state.measure] * mean;
  const half = 1000 * z90 * Math.sqrt(variance);
  return {
    perThousand: roundedRate(perThousand),
    p10: roundedRate(perThousand - half),
    p90: roundedRate(perThousand + half),
  };
};

/** One judged measure of a cylinder; a measure that was never taken is left out by the caller. */
function assessMeasure(
  state: MeasureState,
  settings: AssessmentSettings,
  telling: Telling,
  /** Why there is no level, where there is none. */
  noLevel: string,
): MeasureAssessment {
  const { measure, wear, level, limit, leakDownLimits, distribution, crossed, poolDistribution } = state;
  const leadDays = daysBetween(telling.asOf, addMonths(telling.asOf, settings.leadTimeMonths));
  const judged = limit !== null;
  // By so few tests no range is told; that the limit may be met already is not to be passed over all the same.
  const lead = distribution ?? (state.unsettled === null ? null : state.thinDistribution);
  const band =
    judged && level !== null
      ? bandOfMeasure({
          measure,
          level,
          limit,
          watchPercent: leakDownLimits?.watchPercent ?? null,
          planPercent: leakDownLimits?.planPercent ?? null,
          probabilityWithinLeadTime: lead === null ? null : probabilityWithinDays(lead, telling.use, leadDays),
          spread: state.spread,
          crossedAfter: state.crossedAfter,
          earlyWarning: state.earlyWarning?.words ?? null,
          unsettled: state.unsettled,
          settings,
        })
      : null;
  return {
    measure,
    unit: unitOf(measure),
    tests: wear.tests,
    latest: wear.latest === null ? null : roundedReading(measure, worseSign[measure] * wear.latest),
    level: level === null ? null : roundedReading(measure, level),
    limit,
    band: band?.band ?? null,
    rate: rateOf(state),
    crossing: !judged
      ? null
      : crossed
        ? tellCrossed(telling)
        : distribution === null
          ? tellTooFewTests(poolDistribution, telling)
          : tellCrossing(distribution, telling),
    reason: band?.reason ?? (judged ? noLevel : ""),
    ...(state.crossedAfter === null ? {} : { crossedAfter: state.crossedAfter }),
  };
}

/** Wet compression: evidence for causes, never judged. */
function assessWet(state: EngineState, cylinder: number): MeasureAssessment | null {
  let tests = 0;
  let latest: number | null = null;
  for (const { test } of state.conditioned.tests) {
    if (test.measure !== "compression-wet") continue;
    const reading = test.readings.find((r) => r.cylinder === cylinder);
    if (reading === undefined) continue;
    tests++;
    latest = reading.value;
  }
  if (latest === null) return null;
  return {
    measure: "compression-wet",
    unit: "kPa",
    tests,
    latest: roundedReading("compression-wet", latest),
    level: null,
    limit: null,
    band: null,
    rate: null,
    crossing: null,
    reason: "",
  };
}

/** One cylinder: its measures, its band (the worst measure's), its causes and the classes of repair, rounded to add up. */
export function assessCylinder(
  engine: EngineState,
  cylinder: CylinderState,
  settings: AssessmentSettings,
  telling: Telling,
): CylinderAssessment {
  const { diagnosis } = cylinder;
  const noLevel = engine.conditioned.history.repairs.some(givesBaseline)
    ? "no usable test since the last repair"
    : noTest.noneUsable;
  const measures = cylinder.measures
    .filter((m) => m.wear.tests > 0)
    .map((m) => assessMeasure(m, settings, telling, noLevel));
  const wet = assessWet(engine, diagnosis.cylinder);
  const band = worstBand(measures.map((m) => m.band));
  const topEnd = rounded(diagnosis.topEnd, 4);
  const bottomEnd = rounded(Math.min(diagnosis.bottomEnd, 1 - topEnd), 4);
  const reasons = measures.filter((m) => m.band === band).map((m) => m.reason);
  return {
    cylinder: diagnosis.cylinder,
    band,
    measures: wet === null ? measures : [...measures, wet],
    causes: diagnosis.causes.map((c) => ({ ...c, probability: toldProbability(c.probability) })),
    topEnd,
    bottomEnd,
    testSetUp: rounded(1 - topEnd - bottomEnd, 4),
    reason: measures.length === 0 ? noTest.never : reasons.join("; "),
    together: togetherOf(diagnosis),
  };
}

const togetherOf = ({ together }: CylinderState["diagnosis"]): CylinderAssessment["together"] =>
  together === null ? null : { causes: [...together.causes], probability: toldProbability(together.probability) };

/** How far the cylinders' crossings go together, by the measure that tells of most of them. */
function sharedUncertaintyOf({ wear, cylinders }: EngineState): number {
  const told = (measure: JudgedMeasure) =>
    cylinders.filter((c) => c.measures.some((m) => m.measure === measure && m.distribution !== null)).length;
  const measure = told("compression-dry") > told("leak-down") ? "compression-dry" : "leak-down";
  return wear[measure].sharedUncertainty;
}

/** The class of repair with the sooner likely date; null: neither has one within the horizon. */
function firstOf({ topEnd, bottomEnd }: UnitAssessment["repairs"]): "topEnd" | "bottomEnd" | null {
  const [top, bottom] = [topEnd.date.p50, bottomEnd.date.p50];
  if (top === null) return bottom === null ? null : "bottomEnd";
  // Of two on one day the bottom end goes first: its repair contains the other.
  return bottom !== null && bottom <= top ? "bottomEnd" : "topEnd";
}

/** Foreseen, but likely only after the date. */
const isAfter = ({ date: { p10, p50 } }: Pick<Crossing, "date">, date: IsoDate): boolean =>
  p10 !== null && (p50 === null || p50 > date);

const noWindow = { date: { p10: null, p50: null, p90: null } };

/**
 * The windows of the two classes of repair: the first crossing of any cylinder whose growth is then mostly of the class.
 * A cylinder past its limit now puts the class that its fault mostly belongs to at the as-of date. Otherwise each
 * cylinder takes part with the chance that it is of the class; what may be the test's set-up is shared out between the
 * two, for a wear that goes on is no fault of the set-up.
 */
export function repairWindows(
  state: EngineState,
  telling: Telling,
  ahead: Float64Array,
  { togetherMonths, disposal }: { readonly togetherMonths: number; readonly disposal: IsoDate | null },
): RepairWindows {
  const window = (side: "topEnd" | "bottomEnd") => {
    const other = side === "topEnd" ? "bottomEnd" : "topEnd";
    const members: WindowMember[] = [];
    const thin: WindowMember[] = [];
    const pooled: WindowMember[] = [];
    let crossed = false;
    for (const { diagnosis, measures } of state.cylinders) {
      const repairable = diagnosis.topEnd + diagnosis.bottomEnd;
      const classProbability = repairable > 0 ? diagnosis[side] / repairable : 0.5;
      if (measures.some((m) => m.crossed) && diagnosis[side] >= diagnosis[other]) crossed = true;
      const add = (to: WindowMember[], distributions: readonly (CrossingDistribution | null)[]): boolean => {
        const known = distributions.filter((d) => d !== null);
        if (known.length > 0) to.push({ classProbability, distribution: known.reduce(soonerOf) });
        return known.length > 0;
      };
      const isOwn =
        add(
          members,
          measures.map((m) => m.distribution),
        ) ||
        (side === "bottomEnd" &&
          add(
            members,
            measures.map((m) => m.carriedDistribution),
          ));
      if (!isOwn)
        add(
          thin,
          measures.map((m) => m.thinDistribution),
        );
      // Of the measures that say something of the model, the first: leak-down, which shows wear sooner.
      add(
        pooled,
        measures
          .map((m) => m.poolDistribution)
          .filter((d) => d !== null)
          .slice(0, 1),
      );
    }
    const of = (who: readonly WindowMember[]) =>
      who.length === 0 ? null : firstCrossingOfClass(who, sharedUncertaintyOf(state), ahead);
    // A cylinder with few tests adds to a window that others give, but gives none itself.
    const distribution = members.length === 0 ? null : of([...members, ...thin]);
    return {
      crossed,
      members: members.length === 0 && !crossed ? [] : [...members, ...thin],
      distribution: crossed ? crossedNow(ahead) : distribution,
      pool: of(pooled),
    };
  };
  const top = window("topEnd");
  const bottom = window("bottomEnd");
  const tell = (w: typeof top): Crossing =>
    w.crossed
      ? tellCrossed(telling)
      : w.distribution === null
        ? tellTooFewTests(w.pool, telling)
        : tellCrossing(w.distribution, telling);
  const ofModel = ({ crossed, distribution, pool }: typeof top) => (crossed || distribution !== null ? null : pool);
  const tellFromModel = (window: typeof top): WindowDates => {
    const pool = ofModel(window);
    const crossing = pool === null ? noWindow : tellCrossing(pool, telling);
    const sold = disposal !== null && isAfter(crossing, disposal);
    return { status: "too-few-tests", ...crossing.date, ...(sold ? { soldOn: disposal } : {}) };
  };
  const told = { topEnd: tell(top), bottomEnd: tell(bottom) };
  const together = (): RepairWindows["bothTogether"] => {
    const first = firstOf(told);
    if (first === null || top.distribution === null || bottom.distribution === null) return null;
    if (disposal !== null && (told[first].date.p50 ?? disposal) > disposal) return null;
    const [one, other] = first === "topEnd" ? [top, bottom] : [bottom, top];
    const probability =
      one.crossed && other.crossed
        ? 1
        : followsWithin({ first: one.members, other: other.members }, sharedUncertaintyOf(state), ahead, telling.use, {
            spanDays: daysBetween(telling.asOf, addMonths(telling.asOf, togetherMonths)),
            endDays:
              disposal === null
                ? telling.horizonDays
                : Math.min(telling.horizonDays, daysBetween(telling.asOf, disposal)),
            firstIsDue: one.crossed,
          });
    return probability === null ? null : { first, months: togetherMonths, probability: toldProbability(probability) };
  };
  return {
    bothTogether: telling.use.perDay === 0 ? null : together(),
    soldBefore:
      disposal === null
        ? null
        : { date: disposal, topEnd: isAfter(told.topEnd, disposal), bottomEnd: isAfter(told.bottomEnd, disposal) },
    fromModel: { topEnd: tellFromModel(top), bottomEnd: tellFromModel(bottom) },
    fromModelDistributions: { topEnd: ofModel(top), bottomEnd: ofModel(bottom) },
    ...told,
    topEndDistribution: top.distribution,
    bottomEndDistribution: bottom.distribution,
  };
}
