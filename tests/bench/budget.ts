import { readdirSync } from "node:fs";
import path from "node:path";
import { planFromFiles } from "../../cli/plan-from-files.ts";
import { table } from "../../cli/table.ts";
import { budgetProblemOf } from "../../lib/budget/problem-of.ts";
import { simulateBudget } from "../../lib/budget/simulate.ts";
import { rangeOf, spansOf } from "../../lib/budget/summarise.ts";
import type { BudgetProblem } from "../../lib/budget/types.ts";
import { numberWords } from "../../lib/wording.ts";

/** How far the demo fleet's budget moves where nothing but the seed is another one. */

const demo = path.resolve(import.meta.dirname, "../../demo-data");
const kinds = ["units", "depots", "repairs", "meters", "checks"] as const;
const quantiles = ["p50", "p80", "p95"] as const;
type Quantile = (typeof quantiles)[number];

/** Of one fiscal year, or of two together. */
export interface SpreadFigures {
  readonly span: string;
  readonly draws: number;
  /** Mean over all seeds, whole units of the currency. */
  readonly mean: Readonly<Record<Quantile, number>>;
  /** The most that two budgets of a pair lie apart, as a share of their mean. */
  readonly most: Readonly<Record<Quantile, number>>;
  /** The square root of the mean of the squared distances of the pairs, as a share of their mean. */
  readonly typical: Readonly<Record<Quantile, number>>;
}

/** The demo fleet on its day, as `borecast budget` draws it. */
async function demoProblem(): Promise<{ readonly problem: BudgetProblem; readonly fiscalYearStartMonth: number }> {
  const file = (name: string) => path.join(demo, name);
  const tests = readdirSync(demo).filter((name) => name.startsWith("tests-") && name.endsWith(".csv"));
  const { told, outlooks } = await planFromFiles("budget", [
    ...tests.map(file),
    "--models",
    file("engine-models.json"),
    ...kinds.flatMap((kind) => [`--${kind}`, file(`${kind}.csv`)]),
    "--workshop",
    file("workshop.json"),
    "--as-of",
    "2026-08-31",
  ]);
  const { workshop, problem, asOf, plan } = told;
  return {
    problem: budgetProblemOf(outlooks, workshop, { asOf, problem, bookings: plan.bookings }),
    fiscalYearStartMonth: workshop.fiscalYearStartMonth,
  };
}

/**
 * Quantiles of each fiscal year, and of the first two together, over pairs of seeds: 1 and 2, 3 and 4, …
 * @param counts of draws, each even
 */
export async function measureSpread(pairs: number, counts: readonly number[]): Promise<SpreadFigures[]> {
  const { problem, fiscalYearStartMonth } = await demoProblem();
  const { months } = problem;
  const { years } = spansOf(problem, fiscalYearStartMonth);
  const [first, second] = years;
  const both = first && second ? [{ name: `${first.name} and ${second.name}`, from: first.from, to: second.to }] : [];
  const spans = [...years, ...both];
  return counts.flatMap((draws): SpreadFigures[] => {
    const drawn = Array.from({ length: 2 * pairs }, (_, i) => {
      const { totals } = simulateBudget(problem, { seed: i + 1, draws });
      return spans.map((span) => rangeOf(totals, { months, ...span }));
    });
    return spans.map(({ name }, at): SpreadFigures => {
      const of = (quantile: Quantile) => {
        const values = drawn.map((one) => one[at]?.[quantile] ?? 0);
        const apart = Array.from({ length: pairs }, (_, pair) => {
          const [a, b] = [values[2 * pair] as number, values[2 * pair + 1] as number];
          return Math.abs(a - b) / Math.max(1, (a + b) / 2);
        });
        return {
          mean: values.reduce((a, b) => a + b, 0) / values.length / 100,
          most: Math.max(...apart),
          typical: Math.sqrt(apart.reduce((sum, share) => sum + share * share, 0) / pairs),
        };
      };
      const told = { p50: of("p50"), p80: of("p80"), p95: of("p95") };
      const by = (field: keyof ReturnType<typeof of>) => ({
        p50: told.p50[field],
        p80: told.p80[field],
        p95: told.p95[field],
      });
      return { span: name, draws, mean: by("mean"), most: by("most"), typical: by("typical") };
    });
  });
}

export const spreadTable = (figures: readonly SpreadFigures[], pairs: number): string =>
  table(
    ["fiscal year", "draws", ...["P50", "P80", "P95"].flatMap((name) => [name, `most of ${pairs}`, "typical"])],
    figures.map(({ span, draws, mean, most, typical }) => [
      span,
      numberWords(draws),
      ...quantiles.flatMap((of) => [
        numberWords(mean[of]),
        `${(100 * most[of]).toFixed(2)} %`,
        `${(100 * typical[of]).toFixed(2)} %`,
      ]),
    ]),
    [1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
  );
