import { describe, expect, it } from "vitest";
import { unitsTable } from "@/app/_ui/budget/budget-files.ts";
import { forWords, holdWords, movedWords, signedMoney } from "@/app/_ui/budget/budget-words.ts";
import { planAgeWords } from "@/app/_ui/budget/plan-age.ts";
import { spentWords } from "@/app/_ui/budget/spent-sheet.tsx";
import {
  cutWords,
  lossWords,
  replannedWords,
  savesWords,
  shutWords,
  staysWords,
} from "@/app/_ui/budget/what-if-told.tsx";
import { type WhereUnit, whereOf } from "@/app/_ui/budget/where.ts";
import { barsOf, type Head, runningSum, spansTold, yearTold } from "@/app/_ui/budget/year-told.ts";
import { budgetDocument } from "@/lib/budget/document.ts";
import { problemOfInputs } from "@/lib/budget/frame.ts";
import { keptInputs } from "@/lib/budget/inputs.ts";
import { simulateBudget } from "@/lib/budget/simulate.ts";
import type { BudgetBridge } from "@/lib/schema/bridge.ts";
import { formatsOf } from "@/lib/viewing/formats.ts";
import { plainPreferences } from "@/lib/viewing/preferences.ts";
import { chances, inputsOf, inputUnit } from "../../lib/budget/inputs.ts";

const f = formatsOf(plainPreferences);
const standing = { depot: "Lowmarsh", engineModel: "petrol-4-a", scope: "top-end" as const, labourHours: 10 };
const inputs = inputsOf([inputUnit("A"), inputUnit("B", { depot: "Highcol" })], {
  asOf: "2026-09-15",
  repairs: [
    { ...standing, unit: "A", date: "2026-06-30", cost: 900 },
    { ...standing, unit: "A", date: "2026-07-10", cost: 1_000 },
    { ...standing, unit: "C", date: "2026-09-02", cost: 500.25 },
    { ...standing, unit: "B", date: "2026-09-03", cost: null },
  ],
});
const problem = problemOfInputs(inputs);
const drawn = simulateBudget(problem, { seed: 3, draws: 400 });
const document = budgetDocument(problem, drawn, { ...inputs.workshop, seed: 3 });
const head: Head = keptInputs(inputs);
const told = yearTold(document, head, "2026/27");
if (told === null) throw new Error("the budget has no such year");
const sum = (amounts: readonly number[]) => amounts.reduce((a, b) => a + b, 0);

describe("a fiscal year as the page tells it", () => {
  it("has in all amounts what was spent in it, and not what was spent before", () => {
    expect(told.spent.amount).toBe(150_025);
    expect(told.whole.p50).toBe(150_025 + told.drawn.p50);
    expect(yearTold(document, head, "2027/28")?.spent.amount).toBe(0);
    expect(yearTold(document, head, "2031/32")).toBeNull();
  });

  it("has twelve months, of which those gone by hold what was spent alone", () => {
    const bars = barsOf(document, told, "month");
    expect(bars.map(({ name }) => name).slice(0, 3)).toEqual(["2026-07", "2026-08", "2026-09"]);
    expect(bars).toHaveLength(12);
    expect(bars[0]?.whole).toEqual({ expected: 100_000, p50: 100_000, p80: 100_000, p95: 100_000 });
    expect(sum(bars.map(({ whole }) => whole.expected))).toBe(told.whole.expected);
    expect(sum(bars.map(({ spent }) => spent))).toBe(told.spent.amount);
  });

  it("has the whole of a span that began before the budget did", () => {
    expect(barsOf(document, told, "quarter")[0]).toMatchObject({
      name: "2026/27 Q1",
      from: "2026-07-01",
      spent: 150_025,
    });
    expect(barsOf(document, told, "year")[0]).toMatchObject({ from: "2026-07-01", whole: told.whole });
  });

  it("has the quarters that have gone by, with nothing to come, so that all spans hold what was spent in it", () => {
    const later = { ...inputs, asOf: "2027-02-10" };
    const ofLater = problemOfInputs(later);
    const drawnLater = simulateBudget(ofLater, { seed: 3, draws: 400 });
    const documentLater = budgetDocument(ofLater, drawnLater, { ...inputs.workshop, seed: 3 });
    const spans = spansTold(documentLater, keptInputs(later));
    const of = (kind: string) => spans.filter((one) => one.kind === kind);
    expect(of("quarter").slice(0, 3)).toMatchObject([
      { name: "2026/27 Q1", from: "2026-07-01", spent: 150_025, months: 0, drawn: { expected: 0, p50: 0, p95: 0 } },
      { name: "2026/27 Q2", from: "2026-10-01", spent: 0, months: 0 },
      { name: "2026/27 Q3", from: "2027-01-01", months: 2 },
    ]);
    for (const kind of ["month", "quarter", "year"]) {
      expect(sum(of(kind).map(({ spent }) => spent))).toBe(150_025);
      expect(sum(of(kind).map(({ whole }) => whole.expected))).toBe(sum(of("year").map(({ whole }) => whole.expected)));
    }
    const next = yearTold(documentLater, keptInputs(later), "2027/28");
    if (next === null) throw new Error("the budget has no such year");
    expect(barsOf(documentLater, next, "quarter").map(({ name }) => name)[0]).toBe("2026/27 Q3");
  });

  it("adds up from what was spent to the year's P50 and P80", () => {
    const sums = runningSum(told);
    expect(sums.spent.map(({ amount }) => amount)).toEqual([0, 100_000, 100_000, 150_025]);
    expect(sums.drawn[0]).toMatchObject({ p50: 150_025, p80: 150_025 });
    expect(sums.drawn.at(-1)).toEqual({ month: 12, p50: told.whole.p50, p80: told.whole.p80 });
  });

  it("goes to depots, classes or models, each with its units, and adds up by each", () => {
    for (const by of ["depot", "class", "model"] as const) {
      const { groups, whole } = whereOf(told, told, by);
      for (const of of ["spent", "expected"] as const) {
        expect(sum(groups.map((group) => group[of]))).toBe(whole[of]);
        for (const group of groups) expect(sum(group.units.map((unit) => unit[of]))).toBe(group[of]);
      }
      expect(sum(groups.map(({ frozen }) => frozen ?? 0))).toBe(told.whole.expected);
    }
    const { groups } = whereOf(told, null, "depot");
    // A unit that was repaired and is no longer foreseen stands where it stood.
    expect(groups.find(({ name }) => name === "Lowmarsh")?.units.map(({ name }) => name)).toContain("C");
    expect(groups.every(({ frozen }) => frozen === null)).toBe(true);
  });

  it("tells what a unit's money is for: what is booked in every draw, the other class beside it where it is needed", () => {
    const pastLimit = chances("2026-07-01", { topEnd: 4, bottomEnd: 5 });
    const booking = { unit: "A", scope: "top-end", start: "2026-10-05", downtime: 60_000, isPinned: false } as const;
    const of = inputsOf([inputUnit("A", { pastLimit })], { asOf: inputs.asOf, bookings: [booking] });
    const ofOne = problemOfInputs(of);
    const one = budgetDocument(ofOne, simulateBudget(ofOne, { seed: 3, draws: 400 }), { ...of.workshop, seed: 3 });
    const year = yearTold(one, keptInputs(of), "2026/27");
    if (year === null) throw new Error("the budget has no such year");
    const [line] = whereOf(year, null, "depot").groups[0]?.units ?? [];
    expect(line?.scopes.map(({ scope, isBooked }) => [scope, isBooked])).toEqual([
      ["top-end", true],
      ["bottom-end", false],
    ]);
    expect(sum(line?.scopes.map(({ expected }) => expected) ?? [])).toBe(line?.expected);
    // 14 hours at the usual rate, parts and four days: the whole of it, not the share of the class.
    const work = ofOne.units[0]?.works.find(({ scope }) => scope === "top-end");
    expect(line?.scopes[0]?.expected).toBeGreaterThan(0.95 * ((work?.labour ?? 0) + (work?.parts ?? 0) + 60_000));
    const byClass = whereOf(year, null, "class").groups.map(({ name, units }) => [name, units[0]?.scopes.length]);
    expect(byClass).toEqual([
      ["bottom-end", 1],
      ["top-end", 1],
    ]);
  });

  it("tells units never or too seldom tested as a line of their own that opens to them", () => {
    const never = inputUnit("N", { pastLimit: [], fromModel: chances("2026-07-01", { topEnd: 6, bottomEnd: 20 }) });
    const some = inputsOf([...inputs.units, never], { asOf: inputs.asOf, repairs: inputs.repairs });
    const of = problemOfInputs(some);
    const ofSome = budgetDocument(of, simulateBudget(of, { seed: 3, draws: 400 }), { ...some.workshop, seed: 3 });
    const year = yearTold(ofSome, keptInputs(some), "2026/27");
    if (year === null) throw new Error("the budget has no such year");
    const { untested, others, whole } = whereOf(year, told, "depot");
    expect(untested.units.map(({ name }) => name)).toEqual(["N"]);
    expect(untested.expected).toBeGreaterThan(0);
    expect(untested).toMatchObject({ expected: year.drawn.untested.expected, p80: year.drawn.untested.p80, frozen: 0 });
    for (const field of ["spent", "expected", "planned", "unplanned", "frozen"] as const)
      expect((untested[field] ?? 0) + (others[field] ?? 0)).toBe(whole[field]);
  });

  it("has the groups and units that only the frozen budget knew, so that its column adds up too", () => {
    const more = inputsOf(
      [
        ...inputs.units,
        inputUnit("D", { depot: "Faroff" }),
        inputUnit("E", { depot: "Highcol" }),
        inputUnit("F", { depot: "Lowmarsh" }),
      ],
      { asOf: inputs.asOf, repairs: inputs.repairs },
    );
    const ofMore = problemOfInputs(more);
    const drawnMore = simulateBudget(ofMore, { seed: 3, draws: 400 });
    const frozen = yearTold(
      budgetDocument(ofMore, drawnMore, { ...more.workshop, seed: 3 }),
      keptInputs(more),
      "2026/27",
    );
    if (frozen === null) throw new Error("the budget has no such year");
    for (const by of ["depot", "class", "model"] as const) {
      const { groups, whole } = whereOf(told, frozen, by);
      expect(sum(groups.map((group) => group.frozen ?? 0))).toBe(whole.frozen);
      for (const group of groups) expect(sum(group.units.map((unit) => unit.frozen ?? 0))).toBe(group.frozen);
    }
    const faroff = whereOf(told, frozen, "depot").groups.find(({ name }) => name === "Faroff");
    expect(faroff).toMatchObject({ spent: 0, expected: 0, p80: null, units: [{ name: "D", expected: 0 }] });
  });
});

describe("what is said", () => {
  const ends = { spent: 0, expected: 0, p80: 0, asOf: "2026-07-01" };
  const step = (cause: "tests" | "use", p50: number) =>
    ({ cause, p50, expected: 0, p80: 0, because: [], units: [], rest: 0 }) as const;
  const bridge = (from: number, steps: BudgetBridge["steps"], to: number): BudgetBridge => ({
    year: "2026/27",
    from: { ...ends, p50: from },
    to: { ...ends, p50: to },
    steps,
  });
  const frozen = { currency: "XXX", name: "Board", asOf: "2026-07-01" };

  it("of why it moved names what moved it most, the way that it went", () => {
    const up = bridge(100_000, [step("tests", 90_000), step("use", -30_000)], 160_000);
    expect(movedWords(f, up, frozen)).toBe(
      "That is 600 more than the budget “Board” of 1 Jul 2026, mostly from new tests.",
    );
    const down = bridge(100_000, [step("tests", 10_000), step("use", -30_000)], 80_000);
    expect(movedWords(f, down, frozen)).toContain(
      "200 less than the budget “Board” of 1 Jul 2026, mostly from the use",
    );
    expect(movedWords(f, bridge(1, [], 1), frozen)).toBe("That is as much as the budget “Board” of 1 Jul 2026.");
  });

  it("of a what-if names what stays, and why", () => {
    const stay = { scope: "top-end", start: "2026-08-03" } as const;
    expect(
      staysWords(f, [
        { ...stay, unit: "H-304", why: "pinned" },
        { ...stay, unit: "V-109", why: "past-limit" },
      ]),
    ).toBe(
      "Stays as booked because its limit is met already: V-109 (top-end, 3 Aug 2026). Stays because it is pinned: H-304 (top-end, 3 Aug 2026).",
    );
    expect(staysWords(f, [])).toBe("");
  });

  it("of a what-if names a dozen, and counts the rest", () => {
    const units = Array.from({ length: 20 }, (_, i) => `U${i}`);
    expect(shutWords(f, { depot: "Midfell", units, base: 100, scenario: 100 }, "XXX")).toContain(
      "repairs of 20 units (U0, U1, U2, U3, U4, U5, U6, U7, U8, U9, U10, U11 and 8 more)",
    );
    const stay = { scope: "top-end", start: "2026-08-03", why: "pinned" } as const;
    expect(
      staysWords(
        f,
        units.map((unit) => ({ ...stay, unit })),
      ),
    ).toMatch(/U11 \(top-end, 3 Aug 2026\) and 8 more\.$/);
    const loss = { why: "waits" } as const;
    const moves = units.map((unit) => ({ unit, from: null, to: null, pastLimit: null, loss }));
    const told = { asOf: "2026-07-01", currency: "XXX", seed: 1, draws: 2, bought: 0, base: [], scenario: [] };
    expect(lossWords(f, { ...told, moves })).toMatch(/^20 repairs lose .*; U11, as [^;]*; 8 more\.$/);
  });

  it("of what a unit's money is for tells no cents, however little it is", () => {
    const scopes = [
      { scope: "top-end", expected: 248_040, isBooked: true },
      { scope: "bottom-end", expected: 4_321, isBooked: false },
    ] as const;
    const { groups } = whereOf(told, null, "depot");
    const unit = { ...(groups[0]?.units[0] as WhereUnit), scopes };
    expect(forWords(f, unit, "XXX")).toBe("top-end as booked 2,480; bottom-end where it is needed 43");
  });

  it("of a year that the budget ends in names the months that it is told for, and promises nothing as likely", () => {
    const whole = { expected: 100_000, p50: 90_000, p80: 120_000, p95: 150_000 };
    const of = (name: string, drawnIn: { firstMonth: string; months: number }, amounts = whole) => {
      const year = yearTold(document, head, name);
      if (year === null) throw new Error("the budget has no such year");
      return holdWords(f, { ...year, whole: amounts, drawn: { ...year.drawn, ...drawnIn } }).replaceAll("\u00a0", " ");
    };
    expect(of("2026/27", { firstMonth: "2026-09", months: 10 })).toBe(
      "Fiscal year 2026/27 is as likely to cost more than 900 as less. Hold 300 on top, and the chance of staying within is 80 %.",
    );
    expect(of("2028/29", { firstMonth: "2028-07", months: 1 }, { ...whole, p50: 0 })).toMatch(
      /^Jul 2028 alone, all of fiscal year 2028\/29 that the budget reaches, is at least as likely to cost nothing as anything\./,
    );
    expect(of("2028/29", { firstMonth: "2028-07", months: 3 })).toMatch(/^Jul 2028 to Sep 2028, all of fiscal year/);
  });

  it("of what was spent tells the days off the road, and nothing of a year that is to come", () => {
    const days = { ...inputs, repairs: [{ ...standing, unit: "A", date: "2026-07-10", cost: 1_000, downtimeDays: 4 }] };
    const of = (name: string) => {
      const year = yearTold(document, keptInputs(days), name);
      if (year === null) throw new Error("the budget has no such year");
      return spentWords(f, year);
    };
    expect(of("2026/27")).toBe(
      "1,600 on 1 repair, 600 of it for days off the road; recorded costs are taken to hold none of these.",
    );
    expect(of("2027/28")).toBe("Nothing can have been spent in it yet.");
  });

  it("shows no cents, no sign of nought, and no more of a name than a sentence bears", () => {
    expect([4_321, 40, -30, -12_060].map((amount) => signedMoney(f, amount, "XXX"))).toEqual(["+43", "0", "0", "−121"]);
    const long = { ...frozen, name: "x".repeat(150) };
    expect(movedWords(f, bridge(1, [], 1), long).length).toBeLessThan(100);
  });

  it("of units left out names them in the table of units, with the reason", () => {
    const none = { ...document, leftOut: [{ unit: "N", engineModel: "flat4", why: "no-costs" as const }] };
    const { head: names, rows } = unitsTable(none);
    const last = rows.at(-1) ?? [];
    const at = (name: string) => last[names.indexOf(name)];
    expect([at("unit"), at("left_out"), at("expected")]).toEqual(["N", "no-costs", null]);
  });

  it("of a plan that is older than prices says by what", () => {
    const basis = {
      facts: 1,
      assessed: 1,
      settings: 1,
      depots: 1,
      workshop: 1,
      chosen: [],
      forecast: 1,
      planFormat: 1,
    };
    const was = { basis: JSON.stringify(basis), workshop: inputs.workshop, asOf: "2026-07-01" };
    expect(planAgeWords(f, was, was)).toBeNull();
    const workshop = { ...inputs.workshop, labourRate: 66 };
    const priced = planAgeWords(f, was, { basis: JSON.stringify({ ...basis, workshop: 2 }), workshop });
    expect(priced).toMatch(
      /^The plan of 1 Jul 2026 is older than prices and workshops \(labour rate from 60 to 66\)\./,
    );
    const told = planAgeWords(f, was, { ...was, basis: JSON.stringify({ ...basis, facts: 2, assessed: 2 }) });
    expect(told).toMatch(/older than facts of the fleet \(tests, repairs, readings, limits\)\. .*Replan/);
  });

  it("of a what-if that shuts a depot says that it is no saving, and why repairs lose their booking", () => {
    const shut = shutWords(f, { depot: "Midfell", units: ["A", "B"], base: 1_700_000, scenario: 900_000 }, "XXX");
    expect(shut).toMatch(
      /^Midfell is shut, so nothing can be booked there\. The base expects 17,000 of repairs of 2 units/,
    );
    expect(shut).toMatch(/this is no saving\.$/);
    const lost = { unit: "A", from: null, to: null, pastLimit: null };
    const loss = { why: "no-room", depot: "Highcol", lacks: ["bay-days", "hours"], extra: 433_600 } as const;
    const moves = [
      { ...lost, loss },
      { ...lost, unit: "B", loss: { why: "waits" } as const },
    ];
    const told = { asOf: "2026-07-01", currency: "XXX", seed: 1, draws: 2, bought: 0, base: [], scenario: [] };
    expect(lossWords(f, { ...told, moves })).toBe(
      "2 repairs lose their booking: A, as Highcol has not enough bay days and hours, which costs 4,336; B, as waiting until it is due costs less than any week that is left for it.",
    );
    expect(lossWords(f, { ...told, moves: [lost] })).toBe("");
  });

  it("of a what-if tells what it saves and what it risks", () => {
    const year = (expected: number, unplanned: number, failures: number) => ({
      ...{ name: "2026", p50: 0, p80: 0, p95: 0, downtime: 0 },
      ...{ expected, unplanned, failures },
    });
    const told = { asOf: "2026-07-01", currency: "XXX", seed: 1, draws: 2, bought: 0, moves: [] };
    const words = savesWords(f, {
      ...told,
      base: [year(100_000, 10_000, 1)],
      scenario: [year(80_000, 40_000, 2.5)],
    });
    expect(words).toBe(
      "It saves 200 over all years of the budget, expected; 1.5 more failures are expected, and the unplanned share goes from 10 % to 50 %.".replaceAll(
        " %",
        "\u00a0%",
      ),
    );
    const same = { ...told, base: [year(100_000, 24_000, 1)], scenario: [year(100_000, 24_200, 1)] };
    expect(savesWords(f, same)).toMatch(/the unplanned share stays at 24.%\.$/);
    const cut = { ...told, lastMonth: "2028-11", base: [year(100_000, 0, 0)], scenario: [year(80_000, 0, 0)] };
    expect(savesWords(f, cut)).toMatch(/^It saves 200 over what both are told for, expected;/);
    const anew = (expected: number, moves: number) => replannedWords(f, { ...cut, replanned: { expected, moves } });
    expect(anew(-50_000, 3)).toMatch(/: planning anew alone would move 3 bookings and save 500, which is not counted/);
    expect(anew(100, 1)).toMatch(/ 1 booking and cost 1 more, /);
    expect(anew(0, 0)).toMatch(/, which moves no booking of it\.$/);
    expect(cutWords(f, "2028-11")).toMatch(/^Base and what-if are both told until the end of Nov 2028 alone:/);
  });
});
