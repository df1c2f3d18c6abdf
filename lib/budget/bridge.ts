import { daysBetween } from "../calendar.ts";
import {
  type BridgeCause,
  type BridgeStep,
  type BridgeUnit,
  type BudgetBridge,
  bridgeCauses,
  type NoBridge,
  type YearTold,
} from "../schema/bridge.ts";
import type { BudgetDocument } from "../schema/budget-document.ts";
import { dayWords } from "../wording.ts";
import { actualsOf } from "./actuals.ts";
import type { MixedForecasts } from "./bridge-mixtures.ts";
import { priceNews } from "./bridge-prices.ts";
import { unitStages } from "./bridge-units.ts";
import { type FiscalYear, fiscalYearOf } from "./fiscal-year.ts";
import { type DrawOptions, drawAnew, type FleetDraws, noDraws, yearExpected, yearQuantile } from "./fleet-draws.ts";
import type { BudgetInputs } from "./inputs.ts";

/** A budget with what it was drawn from. */
export interface DrawnBudget {
  readonly inputs: BudgetInputs;
  readonly document: BudgetDocument;
}

/**
 * Why a fiscal year's money is another one in a later budget. Causes are put in one after the other, in the order of
 * `bridgeCauses`, and after each the year is drawn with the same random numbers (by name: streams.ts), so that what lies
 * between two draws is the cause's and no noise. The year's money is what was spent in it by then and what is drawn of the
 * rest of it. The steps add up to the difference by construction, to the minor unit, P50 and P80 as expected money; by
 * unit only expected money adds up. A unit whose forecast several causes moved is drawn in between by `mixed`, its assessments with
 * the causes put in up to one; where they could not be made, what its causes did together is told as unexplained. What the program draws otherwise of the earlier budget's inputs, with that budget's
 * own seed, is put down to the forecast model. `unexplained` is what another seed or count of draws makes of the same inputs, and what
 * remains between the last draw and the later budget.
 * @param mixed absent: the whole change of a unit's forecast is put down to the first of its causes
 * @param onProgress told with the share that is done, 0 to 1
 * @returns why there is none, where the two cannot be compared
 */
export function budgetBridge(
  was: DrawnBudget,
  now: DrawnBudget,
  {
    year: name,
    mixed,
    onProgress,
  }: {
    readonly year: string;
    readonly mixed?: MixedForecasts | undefined;
    readonly onProgress?: (done: number) => void;
  },
): BudgetBridge | NoBridge {
  if (was.document.currency !== now.document.currency) return "other-currency";
  if (was.inputs.asOf > now.inputs.asOf) return "earlier";
  const first = now.inputs.workshop.fiscalYearStartMonth;
  const told = now.document.fiscalYears.find((one) => one.name === name);
  const before = was.document.fiscalYears.find((one) => one.name === name);
  if (told === undefined || before === undefined || was.inputs.workshop.fiscalYearStartMonth !== first)
    return "other-year";
  const year = fiscalYearOf(`${told.firstMonth}-01`, first);
  const [from, to] = [yearTold(was, before, year), yearTold(now, told, year)];

  const stages = bridgeCauses.filter((cause) => cause !== "unexplained");
  const units = unitStages(was.inputs, now.inputs, { year, mixed });
  const byName = new Map(units.map((unit) => [unit.unit, unit]));
  const [earlier, later] = [was.document, now.document];
  const drawWith = (of: FleetDraws, cause: BridgeCause | null, { seed, draws }: DrawOptions) =>
    drawAnew(
      of,
      units.map((unit) => unit.at(cause)),
      { seed, draws },
    );
  const begunWith = (chance: DrawOptions) => toldOf(drawWith(noDraws(year, chance.draws), null, chance));

  let state = begunWith(later);
  // The earlier budget by its own numbers: what differs from what was kept comes of the program, not of chance.
  const isSameChance = earlier.seed === later.seed && earlier.draws === later.draws;
  const asItWas: Amounts = isSameChance ? state : begunWith(earlier);
  const redrawn = minus(asItWas, from);
  const byChance = minus(state, asItWas);
  const steps: BridgeStep[] = [];
  for (const cause of stages) {
    const next = toldOf(drawWith(state.of, cause, later));
    const moved = movedUnits(state, next);
    // What another version of the program draws of the same inputs.
    const { expected, p50, p80 } = cause === "model" ? plus(minus(next, state), redrawn) : minus(next, state);
    steps.push({
      cause,
      expected,
      p50,
      p80,
      because: wholeWords(cause, was.inputs, now.inputs),
      units: moved.map((one) => ({ ...one, because: byName.get(one.unit)?.words(cause) ?? [] })),
      rest: expected - moved.reduce((sum, one) => sum + one.expected, 0),
    });
    state = next;
    onProgress?.(steps.length / (stages.length + 1));
  }
  const left = plus(minus(to, state), byChance);
  const together = movedUnits(state, toldOf(drawWith(state.of, "unexplained", later)));
  steps.push({
    cause: "unexplained",
    ...left,
    because: [],
    units: together.map((one) => ({ ...one, because: byName.get(one.unit)?.words("unexplained") ?? [] })),
    rest: left.expected - together.reduce((sum, one) => sum + one.expected, 0),
  });
  return {
    year: name,
    from: { ...from, asOf: was.inputs.asOf },
    to: { ...to, asOf: now.inputs.asOf },
    steps,
  };
}

type Amounts = Pick<YearTold, "expected" | "p50" | "p80">;

const minus = (a: Amounts, b: Amounts): Amounts => ({
  expected: a.expected - b.expected,
  p50: a.p50 - b.p50,
  p80: a.p80 - b.p80,
});

const plus = (a: Amounts, b: Amounts): Amounts => ({
  expected: a.expected + b.expected,
  p50: a.p50 + b.p50,
  p80: a.p80 + b.p80,
});

function yearTold({ inputs }: DrawnBudget, drawn: Amounts, { from }: FiscalYear): YearTold {
  const { asOf, repairs, workshop } = inputs;
  const { amount: spent } = actualsOf(repairs, { from, to: asOf, workshop });
  return { spent, expected: spent + drawn.expected, p50: spent + drawn.p50, p80: spent + drawn.p80 };
}

/** A stage with what it comes to. */
interface Stage extends Amounts {
  readonly of: FleetDraws;
  readonly byUnit: ReadonlyMap<string, number>;
}

function toldOf(of: FleetDraws): Stage {
  const byUnit = yearExpected(of);
  const expected = [...byUnit.values()].reduce((a, b) => a + b, 0);
  return { of, byUnit, expected, p50: yearQuantile(of, 0.5), p80: yearQuantile(of, 0.8) };
}

/** Units that are not as they were, with what their expected money moved by; the most first. */
function movedUnits(was: Stage, now: Stage): readonly Omit<BridgeUnit, "because">[] {
  const keysOf = ({ of }: Stage) => new Map(of.units.map((unit) => [unit.of.unit, unit.key]));
  const [before, after] = [keysOf(was), keysOf(now)];
  return [...new Set([...before.keys(), ...after.keys()])]
    .filter((unit) => before.get(unit) !== after.get(unit))
    .map((unit) => ({ unit, expected: (now.byUnit.get(unit) ?? 0) - (was.byUnit.get(unit) ?? 0) }))
    .filter(({ expected }) => expected !== 0)
    .toSorted((a, b) => Math.abs(b.expected) - Math.abs(a.expected) || (a.unit < b.unit ? -1 : 1));
}

/** What is told of the fleet as a whole. */
function wholeWords(cause: BridgeCause, was: BudgetInputs, now: BudgetInputs): readonly string[] {
  if (cause === "prices") return priceNews(was, now);
  const days = daysBetween(was.asOf, now.asOf);
  return cause === "time" && days > 0 ? [`${dayWords(days)} went by`] : [];
}
