import { budgetDocument } from "../lib/budget/document.ts";
import { usualDraws } from "../lib/budget/draws.ts";
import { budgetProblemOf } from "../lib/budget/problem-of.ts";
import { simulateBudget } from "../lib/budget/simulate.ts";
import { numberWords } from "../lib/wording.ts";
import { budgetTables } from "./budget-tables.ts";
import { numberOf, planFromFiles, progress } from "./plan-from-files.ts";
import { bar, print, tell } from "./terminal.ts";

/** `borecast budget`: stateless; the money of the plan that `borecast plan` makes of the same files. */
export async function budget(args: readonly string[]): Promise<number> {
  const { told, outlooks, own, json, horizonYears, isIncomplete } = await planFromFiles("budget", args);
  const seed = numberOf("seed", own["seed"], { least: 0, most: 4_294_967_295, usual: 1, isWhole: true });
  const usual = usualDraws(outlooks.length);
  // Draws come in pairs, each with its mirror image.
  const draws = 2 * Math.round(numberOf("draws", own["draws"], { least: 1_000, most: 200_000, usual }) / 2);
  const { workshop, problem, asOf, plan } = told;
  if (12 * horizonYears < workshop.budgetMonths) {
    tell(
      `The budget has ${numberWords(workshop.budgetMonths)} months, but the forecast looks ${numberWords(horizonYears, 1)} years ahead: what falls due later is not in it. Give --horizon-years ${numberWords(Math.ceil(workshop.budgetMonths / 12) + 1)} or a smaller budgetMonths.`,
    );
  }
  const toDraw = budgetProblemOf(outlooks, workshop, { asOf, problem, bookings: plan.bookings });
  const onProgress = (done: number) => progress.show(`Drawing  ${bar(done)}`);
  const drawn = simulateBudget(toDraw, { seed, draws, onProgress });
  progress.clear();
  const document = budgetDocument(toDraw, drawn, { ...workshop, seed });
  await print(json ? `${JSON.stringify(document)}\n` : budgetTables(document));
  return isIncomplete ? 1 : 0;
}
