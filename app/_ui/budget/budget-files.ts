import type { Scenario } from "../../../db/scenarios.ts";
import { actualsOf } from "../../../lib/budget/actuals.ts";
import { type CsvTable, csvTable, yesNo } from "../../../lib/outtake/csv-table.ts";
import type { BudgetBridge } from "../../../lib/schema/bridge.ts";
import type { BudgetDocument } from "../../../lib/schema/budget-document.ts";
import { minorDigits } from "../../../lib/schema/currency.ts";
import { planScopes } from "../../../lib/schema/workshop.ts";
import type { FrozenTold } from "./budget-now.ts";
import { groupings, whereOf } from "./where.ts";
import { type Amounts, type Head, type SpanTold, spansTold, type YearTold } from "./year-told.ts";

/** The tables of the Budget's pages as files: money in whole units of the currency, with its decimals. */

const moneyIn = (currency: string) => {
  const minor = 10 ** minorDigits(currency);
  return (amount: number | null): number | null => (amount === null ? null : amount / minor);
};

/**
 * Months, quarters and fiscal years: what was spent in each, what is yet to come in the months that lie in the budget, and both together
 * as the page tells them.
 */
export function spansTable(document: BudgetDocument, head: Head): CsvTable {
  const money = moneyIn(document.currency);
  return csvTable(spansTold(document, head), {
    kind: ({ kind }) => (kind === "year" ? "fiscal-year" : kind),
    span: ({ name }) => name,
    first_month: ({ from }) => from.slice(0, 7),
    months_to_come: ({ months }) => months,
    currency: () => document.currency,
    spent: ({ spent }) => money(spent),
    ...rangeColumns("to_come", ({ drawn }: SpanTold) => drawn, money),
    ...rangeColumns("whole", ({ whole }: SpanTold) => whole, money),
  });
}

/** Columns of a range: `to_come_p50` and so on. */
function rangeColumns<R>(prefix: string, of: (row: R) => Amounts, money: (amount: number) => number | null) {
  const column = (field: keyof Amounts) => [`${prefix}_${field}`, (row: R) => money(of(row)[field])] as const;
  return {
    ...Object.fromEntries((["expected", "p50", "p80", "p95"] as const).map(column)),
    [`${prefix}_contingency`]: (row: R) => money(of(row).p80 - of(row).p50),
  };
}

type UnitSum = BudgetDocument["fiscalYears"][number]["units"][number];

/** Every unit with money in a fiscal year, of all years: expected, yet to come; then those that are left out, and why. */
export function unitsTable(document: BudgetDocument): CsvTable {
  const minor = moneyIn(document.currency);
  const rows = [
    ...document.fiscalYears.flatMap(({ name, units }) => units.map((of) => ({ ...of, year: name, of, why: null }))),
    ...(document.leftOut ?? []).map((one) => ({ ...one, year: null, depot: null, of: null })),
  ];
  type Row = (typeof rows)[number];
  const money =
    (amount: (of: UnitSum) => number) =>
    ({ of }: Row) =>
      of === null ? null : minor(amount(of));
  return csvTable(rows, {
    fiscal_year: ({ year }) => year,
    unit: ({ unit }) => unit,
    left_out: ({ why }) => why,
    depot: ({ depot }) => depot,
    engine_model: ({ engineModel }) => engineModel,
    too_few_tests: ({ of }) => (of === null ? null : yesNo(of.untested)),
    expected: money(({ expected }) => expected),
    planned: money(({ expected, unplanned }) => expected - unplanned),
    unplanned: money(({ unplanned }) => unplanned),
    labour: money(({ spent }) => spent.labour),
    parts: money(({ spent }) => spent.parts),
    machining: money(({ spent }) => spent.machining),
    damage: money(({ spent }) => spent.damage),
    downtime: money(({ spent }) => spent.downtime),
    ...Object.fromEntries(planScopes.map((scope) => [scope.replace("-", "_"), money(({ byScope }) => byScope[scope])])),
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

/**
 * The recorded repairs of the two years before the as-of date; what was not recorded is blank. What is spent is the cost and the days off
 * the road together, as forecasts have them.
 */
export function spentTable({ repairs, workshop }: Pick<Head, "repairs" | "workshop">): CsvTable {
  const money = moneyIn(workshop.currency);
  const spentOn = (repair: (typeof repairs)[number]) =>
    actualsOf([repair], { from: repair.date, to: repair.date, workshop });
  return csvTable(
    repairs.toSorted((a, b) => (a.date < b.date ? 1 : -1)),
    {
      date: ({ date }) => date,
      unit: ({ unit }) => unit,
      depot: ({ depot }) => depot,
      engine_model: ({ engineModel }) => engineModel,
      repair: ({ scope }) => scope,
      cost: ({ cost }) => cost,
      labour_hours: ({ labourHours }) => labourHours,
      downtime_days: ({ downtimeDays }) => downtimeDays ?? null,
      downtime: (repair) => (repair.downtimeDays == null ? null : money(spentOn(repair).downtime)),
      spent: (repair) => money(spentOn(repair).amount),
    },
  );
}

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

/** The frozen budgets by fiscal year: what was spent in it when each was made, what was yet to come then, and both together. */
export function frozenTable(frozen: readonly FrozenTold[]): CsvTable {
  const rows = frozen.flatMap((row) => row.years.map((year) => ({ row, year })));
  type Row = (typeof rows)[number];
  const money = ({ row }: Row, amount: number) => moneyIn(row.currency)(amount);
  const ranges = (prefix: string, of: (row: Row) => Amounts) =>
    Object.fromEntries(
      (["expected", "p50", "p80", "p95"] as const).map((field) => [
        `${prefix}_${field}`,
        (row: Row) => money(row, of(row)[field]),
      ]),
    );
  return csvTable(rows, {
    name: ({ row }) => row.name,
    as_of: ({ row }) => row.asOf,
    frozen_at: ({ row }) => row.frozenAt,
    frozen_by: ({ row }) => row.frozenBy,
    fiscal_year: ({ year }) => year.name,
    currency: ({ row }) => row.currency,
    spent: (one) => money(one, one.year.spent),
    ...ranges("to_come", ({ year }) => year.drawn),
    ...ranges("whole", ({ year }) => year.whole),
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
      past_limit_by_start: ({ pastLimitNow }) => pastLimitNow ?? null,
      not_booked_because: ({ loss }) => loss?.why ?? null,
      lacks: ({ loss }) => (loss?.why === "no-room" ? loss.lacks.join(" ") : null),
    },
  );
