import type { TestFact, UnitFact } from "../schema/facts.ts";
import type { RowIssue } from "../schema/intake.ts";
import { type MeterUnit, meterUnits } from "../schema/words.ts";
import { distinct } from "./merge-tests.ts";
import { byPlace, byText, issueAt, placeOf } from "./unit-rows.ts";
import { words } from "./words.ts";

/** What the store, or an earlier file, knows of a unit. */
export interface KnownUnit {
  readonly engineModel: string | null;
  readonly meterUnit: MeterUnit | null;
}

type NamingTest = Pick<TestFact, "date" | "engineModel" | "meterUnit">;

/** The meter unit of a unit that nobody listed: that of its earliest test (of one date, the first of h, km, mi). */
function meterUnitOfTests(tests: readonly NamingTest[]): MeterUnit | null {
  const rank = (test: NamingTest) => meterUnits.indexOf(test.meterUnit);
  const first = tests.reduce<NamingTest | null>(
    (a, b) => (a !== null && (byText(a.date, b.date) || rank(a) - rank(b)) <= 0 ? a : b),
    null,
  );
  return first?.meterUnit ?? null;
}

/** Which engine model and meter unit a list of units and tests tell, by the rule of `identityOf`. */
export function identityTold(
  fact: Pick<UnitFact, "engineModel" | "meterUnit"> | null,
  tests: readonly NamingTest[],
  known: KnownUnit | null,
): KnownUnit {
  return {
    engineModel: fact?.engineModel ?? known?.engineModel ?? distinct(tests.map((test) => test.engineModel))[0] ?? null,
    meterUnit: known?.meterUnit ?? fact?.meterUnit ?? meterUnitOfTests(tests),
  };
}

/**
 * Which engine model a unit has and in which unit its meter counts. The list of units goes before what was known, that
 * before what its tests say (the first text, with a warning where they differ); for the meter unit, what was known goes
 * first, because one unit keeps one meter unit. `null`: nobody says.
 */
export function identityOf(
  rows: { readonly fact: UnitFact | null; readonly tests: readonly TestFact[] },
  known: KnownUnit | null,
): { readonly engineModel: string | null; readonly meterUnit: MeterUnit | null; readonly issues: readonly RowIssue[] } {
  const { fact, tests } = rows;
  const issues: RowIssue[] = [];
  const named = distinct(tests.map((test) => test.engineModel));
  const { engineModel, meterUnit } = identityTold(fact, tests, known);
  const others = named.filter((id) => id !== engineModel);
  if (engineModel !== null && others.length > 0) {
    const places = tests
      .filter((test) => test.engineModel !== null && test.engineModel !== engineModel)
      .flatMap((test) => test.readings.map((reading) => placeOf(test, reading)))
      .sort(byPlace);
    const unit = (fact ?? tests[0])?.unit ?? "";
    const why = words.disagreement(`the unit ${unit}`, "engine_model", [engineModel, ...others], engineModel);
    const issue = {
      severity: "warning",
      code: "disagreement",
      column: "engine_model",
      value: others[0] ?? null,
    } as const;
    if (places[0] !== undefined) issues.push(issueAt(places[0], issue, why));
  }
  return { engineModel, meterUnit, issues };
}
