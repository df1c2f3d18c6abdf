import type { FrozenBudget } from "../../../db/budgets.ts";
import type { Scenario } from "../../../db/scenarios.ts";
import { type CsvTable, csvTable, yesNo } from "../../../lib/outtake/csv-table.ts";
import type { BudgetBridge } from "../../../lib/schema/bridge.ts";
import type { BudgetDocument } from "../../../lib/schema/budget-document.ts";
import { minorDigits } from "../../../lib/schema/currency.ts";
import { planScopes } from "../../../lib/schema/workshop.ts";
import { groupings, whereOf } from "./where.ts";
import type { Head, YearTold } from "./year-told.ts";

/** The tables of the Budget's pages as files: money in whole units of the currency, with its decimals. */

const moneyIn = (currency: string) => {
  const minor = 10 ** minorDigits(currency);
  return (amount: number | null): number | null => (amount === null ? null : amount / minor);
};

/** Months, quarters and fiscal years of what is yet to come. */
export function spansTable(document: BudgetDocument): CsvTable {
  const money = moneyIn(document.currency);
  const spans = [
    ...document.months.map((span) => ({ kind: "month", span })),
    ...document.quarters.map((span) => ({ kind: "quarter", span })),
    ...document.fiscalYears.map((span) => ({ kind: "fiscal-year", span })),
  ];
  return csvTable(spans, {
    kind: ({ kind }) => kind,
    span: ({ span }) => span.name,
    first_month: ({ span }) => span.firstMonth,
    months: ({ span }) => span.months,
    currency: () => document.currency,
    expected: ({ span }) => money(span.expected),
    p50: ({ span }) => money(span.p50),
    p80: ({ span }) => money(span.p80),
    p95: ({ span }) => money(span.p95),
    contingency: ({ span }) => money(span.contingency),
  });
}

/** Every unit with money in a fiscal year, of all years: expected, yet to come. */
export function unitsTable(document: BudgetDocument): CsvTable {
  const money = moneyIn(document.currency);
  const rows = document.fiscalYears.flatMap(({ name, units }) => units.map((unit) => ({ ...unit, year: name })));
  return csvTable(rows, {
    fiscal_year: ({ year }) => year,
    unit: ({ unit }) => unit,
    depot: ({ depot }) => depot,
    engine_model: ({ engineModel }) => engineModel,
    too_few_tests: ({ untested }) => yesNo(untested),
    expected: ({ expected }) => money(expected),
    planned: ({ expected, unplanned }) => money(expected - unplanned),
    unplanned: ({ unplanned }) => money(unplanned),
    labour: ({ spent }) => money(spent.labour),
    parts: ({ spent }) => money(spent.parts),
    machining: ({ spent }) => money(spent.machining),
    damage: ({ spent }) => money(spent.damage),
    downtime: ({ spent }) => money(spent.downtime),
    ...Object.fromEntries(
      planScopes.map((scope) => [
        scope.replace("-", "_"),
        ({ byScope }: (typeof rows)[number]) => money(byScope[scope]),
      ]),
    ),
  });
}

/**
 * One fiscal year parted in several ways: by depot, by class of repair, by engine model, by whether units were tested often enough, and
 * not at all. The rows of one `partition` add up to the fleet, but for P80; those of two count the same money twice.
 */
export function groupsTable(told: YearTold, frozen: YearTold | null): CsvTable {
  const money = moneyIn(told.currency);
  const { untested, others, whole } = whereOf(told, frozen, "depot");
  const rows = [
    ...groupings.flatMap((by) => whereOf(told, frozen, by).groups.map((group) => ({ by: String(by), group }))),
    { by: "tests", group: untested },
    { by: "tests", group: others },
    { by: "fleet", group: whole },
  ];
  return csvTable(rows, {
    fiscal_year: () => told.drawn.name,
    partition: ({ by }) => by,
    name: ({ group }) => group.name,
    spent: ({ group }) => money(group.spent),
    expected: ({ group }) => money(group.expected),
    p80: ({ group }) => money(group.p80),
    planned: ({ group }) => money(group.planned),
    unplanned: ({ group }) => money(group.unplanned),
    frozen_year_expected: ({ group }) => money(group.frozen),
  });
}

/** The recorded repairs of the two years before the as-of date; a cost that was not recorded is blank. */
export const spentTable = ({ repairs }: Pick<Head, "repairs">): CsvTable =>
  csvTable(
    repairs.toSorted((a, b) => (a.date < b.date ? 1 : -1)),
    {
      date: ({ date }) => date,
      unit: ({ unit }) => unit,
      depot: ({ depot }) => depot,
      engine_model: ({ engineModel }) => engineModel,
      repair: ({ scope }) => scope,
      cost: ({ cost }) => cost,
      labour_hours: ({ labourHours }) => labourHours,
    },
  );

/** The steps of a bridge, each with its units below it. */
export function bridgeTable(bridge: BudgetBridge, currency: string): CsvTable {
  const money = moneyIn(currency);
  const end = (step: string, of: BudgetBridge["from"]) => ({ ...of, step, unit: null, why: of.asOf });
  const rows = [
    end("frozen", bridge.from),
    ...bridge.steps.flatMap(({ cause, expected, p50, p80, because, units, rest }) => [
      { step: cause as string, unit: null, expected, p50, p80, why: because.join("; ") },
      ...[...units, ...(rest === 0 ? [] : [{ unit: "", expected: rest, because: ["of no single unit"] }])].map(
        (one) => ({
          step: cause as string,
          unit: one.unit,
          expected: one.expected,
          p50: null,
          p80: null,
          why: one.because.join("; "),
        }),
      ),
    ]),
    end("today", bridge.to),
  ];
  return csvTable(rows, {
    fiscal_year: () => bridge.year,
    step: ({ step }) => step,
    unit: ({ unit }) => unit,
    expected: ({ expected }) => money(expected),
    p50: ({ p50 }) => money(p50),
    p80: ({ p80 }) => money(p80),
    why: ({ why }) => why,
  });
}

/** The frozen budgets by fiscal year, what was yet to come when each was made. */
export function frozenTable(frozen: readonly FrozenBudget[]): CsvTable {
  const rows = frozen.flatMap((row) => row.fiscalYears.map((year) => ({ row, year })));
  const money = ({ row }: (typeof rows)[number]) => moneyIn(row.currency);
  return csvTable(rows, {
    name: ({ row }) => row.name,
    as_of: ({ row }) => row.asOf,
    frozen_at: ({ row }) => row.frozenAt,
    frozen_by: ({ row }) => row.frozenBy,
    fiscal_year: ({ year }) => year.name,
    currency: ({ row }) => row.currency,
    expected: (one) => money(one)(one.year.expected),
    p50: (one) => money(one)(one.year.p50),
    p80: (one) => money(one)(one.year.p80),
    p95: (one) => money(one)(one.year.p95),
  });
}

/** What-ifs beside the base, by fiscal year; those not reckoned yet are left out. */
export function scenariosTable(scenarios: readonly Scenario[]): CsvTable {
  const rows = scenarios.flatMap(({ name, told }) =>
    told === null
      ? []
      : (["base", "scenario"] as const).flatMap((of) => told.result[of].map((year) => ({ name, of, year, told }))),
  );
  const money = ({ told }: (typeof rows)[number]) => moneyIn(told.result.currency);
  return csvTable(rows, {
    what_if: ({ name }) => name,
    of: ({ of }) => of,
    as_of: ({ told }) => told.result.asOf,
    fiscal_year: ({ year }) => year.name,
    told_until: ({ told }) => told.result.lastMonth ?? null,
    expected: (one) => money(one)(one.year.expected),
    p50: (one) => money(one)(one.year.p50),
    p80: (one) => money(one)(one.year.p80),
    p95: (one) => money(one)(one.year.p95),
    unplanned: (one) => money(one)(one.year.unplanned),
    downtime: (one) => money(one)(one.year.downtime),
    failures: ({ year }) => year.failures,
  });
}

/** The bookings that what-ifs put elsewhere. */
export const movesTable = (scenarios: readonly Scenario[]): CsvTable =>
  csvTable(
    scenarios.flatMap(({ name, told }) => (told?.result.moves ?? []).map((move) => ({ name, ...move }))),
    {
      what_if: ({ name }) => name,
      unit: ({ unit }) => unit,
      base_repair: ({ from }) => from?.scope ?? null,
      base_start: ({ from }) => from?.start ?? null,
      repair: ({ to }) => to?.scope ?? null,
      start: ({ to }) => to?.start ?? null,
      past_limit_by_base_start: ({ pastLimit }) => pastLimit,
    },
  );
