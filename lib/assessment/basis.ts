import type { AssessedUnit } from "../assess.ts";
import type { ConditionedTest } from "../condition/types.ts";
import { fingerprintOf } from "../fingerprint.ts";
import type { AssessmentBasis, BasisLimits, BasisTest } from "../schema/changes.ts";
import type { EngineModel, LeakDownLimits } from "../schema/engine-model.ts";
import { rounded } from "./rounding.ts";
import { toldWidths } from "./width-words.ts";

/** What the assessment was made from, kept with it so that a later one can tell why it differs. */
export function basisOf({ assessment, unit, state, settings, telling }: AssessedUnit): AssessmentBasis {
  const { history, tests } = state.conditioned;
  const last = unit.meterPoints.at(-1);
  const widths = toldWidths(state);
  return {
    perDay: assessment.meter.perDay,
    meterUnit: unit.meterUnit,
    season: telling.use.season?.quarters.map((share) => rounded(share, 3)) ?? null,
    lastRead: last === undefined ? null : { date: last.date, meter: last.meter },
    pools: assessment.pools,
    ...(widths === null ? {} : { widths }),
    engineSerial: history.serial,
    status: unit.status,
    tests: tests.map(basisTest).toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0)),
    repairs: history.repairs.map(({ date, scope, cylinders }) => ({ date, scope, cylinders })),
    checks: history.checks.map(({ date, check, cylinder }) => ({ date, check, cylinder })),
    limits: limitsOf(unit.model),
    settings,
  };
}

function basisTest({ test, weights }: ConditionedTest): BasisTest {
  const { date, measure, attempt, setUp, readings, judgements = [] } = test;
  const judged = judgements.map(({ cylinder, verdict }) => (cylinder === null ? verdict : `${verdict} ${cylinder}`));
  const entered = readings.map((r) => [r.cylinder, r.enteredValue, r.enteredUnit, r.enteredSupply, r.heardAt]);
  return {
    date,
    measure,
    attempt,
    ...(judged.length === 0 ? {} : { judged: judged.join(", ") }),
    used: weights.some((weight) => weight > 0),
    readings: fingerprintOf(JSON.stringify([setUp, entered])).slice(0, 8),
  };
}

const limitsOf = ({ compression, leakDown }: EngineModel): BasisLimits => ({
  minimumKpa: compression?.minimumKpa ?? null,
  spread: compression?.spreadKpa ?? compression?.spreadPercent ?? null,
  leakDown: leakDown === undefined ? null : three(leakDown),
  valves: leakDown?.valves === undefined ? null : three(leakDown.valves),
});

const three = ({ watchPercent, planPercent, limitPercent }: LeakDownLimits): LeakDownLimits => ({
  watchPercent,
  planPercent,
  limitPercent,
});
