import { addMonths } from "../calendar.ts";
import type { BudgetDocument } from "../schema/budget-document.ts";
import { planScopes } from "../schema/workshop.ts";
import { partKey } from "./simulate.ts";
import { expectedCells, rangeOf, type Span, spansOf } from "./summarise.ts";
import {
  type BudgetCells,
  type BudgetDraws,
  type BudgetProblem,
  type BudgetUnit,
  cellAt,
  occasions,
  spendings,
} from "./types.ts";

type Range = BudgetDocument["months"][number];
type Year = BudgetDocument["fiscalYears"][number];
type Spent = Year["planned"];

/**
 * The budget as a document. Expected amounts are sums of whole minor units of single units, months, occasions, scopes and spendings,
 * so that whatever is added up comes to the same whole; quantiles are those of simulated totals.
 */
export function budgetDocument(
  problem: BudgetProblem,
  drawn: BudgetDraws,
  {
    seed,
    currency,
    fiscalYearStartMonth,
  }: { readonly seed: number; readonly currency: string; readonly fiscalYearStartMonth: number },
): BudgetDocument {
  const { asOf, months } = problem;
  const expected = expectedCells(drawn);
  const spans = spansOf(problem, fiscalYearStartMonth);
  const first = `${asOf.slice(0, 8)}01`;
  const rangeIn = (totals: Float64Array | undefined, span: Span, mean: number) => {
    const range = totals === undefined ? { p50: 0, p80: 0, p95: 0 } : rangeOf(totals, { months, ...span });
    return { expected: mean, ...range, contingency: range.p80 - range.p50 };
  };
  const told = (span: Span, sums: Sums): Range => ({
    name: span.name,
    firstMonth: addMonths(first, span.from).slice(0, 7),
    months: span.to - span.from,
    ...rangeIn(drawn.totals, span, sums.of("")),
  });
  const plain = (span: Span) => told(span, sumsOf(problem, expected, span));
  const yearOf = (span: Span): Year => {
    const sums = sumsOf(problem, expected, span);
    const part = (key: string) => rangeIn(drawn.parts.get(key), span, sums.of(key));
    return {
      ...told(span, sums),
      planned: sums.spent[0],
      unplanned: sums.spent[1],
      byDepot: namesOf(problem, ({ depot }) => depot).map((depot) => ({ depot, ...part(partKey.depot(depot)) })),
      byScope: planScopes.map((scope) => ({ scope, ...part(partKey.scope(scope)) })),
      byEngineModel: namesOf(problem, (unit) => unit.engineModel).map((engineModel) => ({
        engineModel,
        ...part(partKey.model(engineModel)),
      })),
      untested: part(partKey.untested),
      cumulative: Array.from({ length: span.to - span.from }, (_, month) => {
        const until = { name: span.name, from: span.from, to: span.from + month + 1 };
        const { p50, p80 } = rangeOf(drawn.totals, { months, ...until });
        const mean = sumsOf(problem, expected, until).of("");
        return { month: addMonths(first, span.from + month).slice(0, 7), expected: mean, p50, p80 };
      }),
      units: sums.units.filter((one) => one.expected > 0).toSorted(byAmount),
    };
  };
  return {
    schemaVersion: 1,
    asOf,
    currency,
    seed,
    draws: drawn.draws,
    months: spans.months.map(plain),
    quarters: spans.quarters.map(plain),
    fiscalYears: spans.years.map(yearOf),
  };
}

type UnitSum = Year["units"][number];
const byAmount = (a: UnitSum, b: UnitSum) => b.expected - a.expected || (a.unit < b.unit ? -1 : 1);

const namesOf = ({ units }: BudgetProblem, of: (unit: BudgetUnit) => string): readonly string[] =>
  [...new Set(units.map(of))].toSorted();

/** Expected amounts of a span, added up in every way in which they are told. */
interface Sums {
  /** Of a part of the fleet by its key; of the whole by none. */
  readonly of: (key: string) => number;
  readonly spent: readonly [planned: Spent, unplanned: Spent];
  readonly units: readonly UnitSum[];
}

function sumsOf({ units }: BudgetProblem, expected: BudgetCells, { from, to }: Span): Sums {
  const byKey = new Map<string, number>();
  const nothing = { labour: 0, parts: 0, machining: 0, damage: 0, downtime: 0 };
  const spent: [Spent, Spent] = [{ ...nothing }, { ...nothing }];
  const add = (key: string, amount: number) => byKey.set(key, (byKey.get(key) ?? 0) + amount);
  const sums = units.map(({ unit, depot, engineModel, isUntested }, place): UnitSum => {
    let whole = 0;
    let unplanned = 0;
    const byScope = { "top-end": 0, "bottom-end": 0, both: 0, exchange: 0 };
    const unplannedByScope = { ...byScope };
    const own: Spent = { ...nothing };
    for (let month = from; month < to; month++) {
      for (let occasion = 0; occasion < occasions.length; occasion++) {
        for (const [scope, name] of planScopes.entries()) {
          for (const [spending, of] of spendings.entries()) {
            const amount = expected.cells[
              cellAt(expected, { unit: place, month, occasion, scope, spending })
            ] as number;
            if (amount === 0) continue;
            const into = spent[occasion] as Spent;
            into[of] += amount;
            own[of] += amount;
            byScope[name] += amount;
            add(partKey.scope(name), amount);
            whole += amount;
            if (occasion === 0) continue;
            unplanned += amount;
            unplannedByScope[name] += amount;
          }
        }
      }
    }
    for (const key of ["", partKey.depot(depot), partKey.model(engineModel)]) add(key, whole);
    if (isUntested) add(partKey.untested, whole);
    return {
      ...{ unit, depot, engineModel, untested: isUntested },
      ...{ expected: whole, unplanned, byScope, unplannedByScope, spent: own },
    };
  });
  return { of: (key) => byKey.get(key) ?? 0, spent, units: sums };
}
