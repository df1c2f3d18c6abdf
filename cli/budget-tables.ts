import { minorUnits } from "../lib/plan/works-of.ts";
import type { BudgetDocument } from "../lib/schema/budget-document.ts";
import { dateWords, numberWords } from "../lib/wording.ts";
import { table } from "./table.ts";

type Year = BudgetDocument["fiscalYears"][number];
type Range = Year["untested"];

/** Units that are told of each year. */
const mostUnits = 10;

/** The budget by fiscal year and quarter, and each whole fiscal year by what it is made of. */
export function budgetTables(document: BudgetDocument): string {
  const { asOf, currency, draws, seed, fiscalYears, quarters } = document;
  const minor = minorUnits(currency);
  const money = (amount: number) => numberWords(amount / minor);
  const range = ({ expected, p50, p80, p95, contingency }: Range) => [expected, p50, p80, p95, contingency].map(money);
  const amounts = ["expected", "P50", "P80", "P95", "P80 less P50"];
  const right = [2, 3, 4, 5, 6];
  const spans = table(
    ["span", "months", ...amounts],
    [...fiscalYears, ...quarters].map((span) => [span.name, monthsWords(span), ...range(span)]),
    right,
  );
  const years = fiscalYears.map((year) => {
    const rows = [
      ...year.byDepot.map((of) => ["depot", of.depot, ...range(of)]),
      ...year.byScope
        .filter(({ p95, expected }) => p95 > 0 || expected > 0)
        .map((of) => ["repair", of.scope, ...range(of)]),
      ...year.byEngineModel.map((of) => ["engine model", of.engineModel, ...range(of)]),
      ["too few tests", "by their models", ...range(year.untested)],
    ];
    return `Fiscal year ${year.name} (${monthsWords(year)})\n\n${table(["by", "", ...amounts], rows, right)}\n${spentTable(year, money)}\n${unitsWords(year, money)}`;
  });
  const isRare = fiscalYears
    .flatMap((year) => [year, ...year.byDepot, ...year.byScope, ...year.byEngineModel, year.untested])
    .some(({ expected, p80 }) => expected > 0 && p80 === 0);
  const named = currency === "XXX" ? "a neutral unit" : currency;
  const lines = [
    `As of ${dateWords(asOf)}, in ${named}: ${numberWords(draws)} draws from seed ${seed}. P80 is not exceeded in 80 of 100 draws of the whole;`,
    "parts' P80 do not add up to it. What the workshop does not pay for, running on past a limit, is not in it.",
    ...(isRare
      ? [
          "Where money is expected and P80 is 0, the chance that any is spent is below one in five: a rare, dear repair.",
        ]
      : []),
  ];
  return `${spans}\n${years.join("\n\n")}\n\n${lines.join("\n")}\n`;
}

const monthsWords = ({ firstMonth, months }: { readonly firstMonth: string; readonly months: number }): string =>
  `${months} from ${firstMonth}`;

/** What is expected to be spent on, planned and after failures. */
function spentTable({ planned, unplanned }: Year, money: (amount: number) => string): string {
  const names = ["labour", "parts", "machining", "damage", "downtime"] as const;
  const rowOf = (name: string, of: Year["planned"]) => [name, ...names.map((spending) => money(of[spending]))];
  return table(["expected", ...names], [rowOf("planned", planned), rowOf("unplanned", unplanned)], [1, 2, 3, 4, 5]);
}

function unitsWords({ units, expected }: Year, money: (amount: number) => string): string {
  const most = units.slice(0, mostUnits);
  const rest = expected - most.reduce((sum, one) => sum + one.expected, 0);
  if (most.length === 0) return "Units: none.";
  const told = most.map(({ unit, expected: of }) => `${unit} ${money(of)}`).join(", ");
  return units.length <= most.length
    ? `Units: ${told}.`
    : `Units: ${told}; the other ${units.length - most.length}: ${money(rest)}.`;
}
