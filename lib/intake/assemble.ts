import type { FleetFacts } from "../schema/facts.ts";
import type { IntakeChunk, KnownFleet, RowIssue } from "../schema/intake.ts";
import { fewRepeats } from "./few-repeats.ts";
import { withFirstDay } from "./first-day.ts";
import { mergeDepots } from "./merge-facts.ts";
import { nothingBefore, oddnessOf, oddTests } from "./odd-tests.ts";
import { byIssue, reconcileUnit } from "./reconcile-unit.ts";
import { alikeUnits, withAlike } from "./unit-names.ts";
import { byText, unitCollector, unitRowKinds } from "./unit-rows.ts";

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer E)[] ? E[] : T[K] };

export interface FactAssembler {
  /** Takes what a chunk of a file gave. A refused file drops what its earlier chunks gave. */
  readonly add: (chunk: IntakeChunk) => void;
  /**
   * All facts, in an order that does not depend on the order of rows or files, and the issues that took all rows to
   * see. The issues of the chunks themselves are not repeated. Call once, after the last chunk.
   */
  readonly finish: () => { readonly facts: FleetFacts; readonly issues: readonly RowIssue[] };
}

/**
 * Gathers the chunks of any number of files into the facts of a fleet, in memory: for the stateless `assess`. Engine
 * models are those of `known` and of the chunks; units of `known` keep their engine model and meter unit.
 */
export function factAssembler(known: KnownFleet): FactAssembler {
  const chunks: IntakeChunk[] = [];
  return {
    add: (chunk) => {
      if (chunk.fileRefused) {
        const others = chunks.filter((c) => c.file !== chunk.file);
        chunks.splice(0, chunks.length, ...others);
      } else chunks.push({ ...chunk, issues: [] });
    },
    finish: () => {
      const models = new Map(known.models);
      const byUnit = unitCollector();
      for (const chunk of chunks) {
        for (const model of chunk.models) models.set(model.id, model);
        for (const kind of unitRowKinds) for (const row of chunk[kind]) byUnit.add(kind, row);
      }
      const depots = mergeDepots(chunks.flatMap((chunk) => chunk.depots));
      chunks.length = 0;
      const facts: Mutable<FleetFacts> = {
        models: [...models.values()].sort((a, b) => byText(a.id, b.id)),
        depots: [...depots.depots],
        units: [],
        tests: [],
        repairs: [],
        meterReadings: [],
        checks: [],
        judgements: [],
      };
      const issues: RowIssue[] = [...depots.issues];
      const units = byUnit.all();
      const alikeOf = alikeUnits(
        units.map((rows) => rows.unit),
        new Set(known.units.keys()),
      );
      for (const rows of units) {
        const identity = known.units.get(rows.unit);
        const before = identity === undefined ? null : { ...identity, meterReadings: [], judgements: [] };
        const reconciled = reconcileUnit(rows, before, models);
        const { accepted } = reconciled;
        const told = withFirstDay(rows, reconciled, reconciled.issues, nothingBefore);
        for (const issue of withAlike(rows, told, alikeOf(rows.unit))) issues.push(issue);
        for (const issue of oddTests(oddnessOf(reconciled, nothingBefore, models))) issues.push(issue);
        for (const fact of accepted.units) facts.units.push(fact);
        for (const fact of accepted.tests) facts.tests.push(fact);
        for (const fact of accepted.repairs) facts.repairs.push(fact);
        for (const fact of accepted.meterReadings) facts.meterReadings.push(fact);
        for (const fact of accepted.checks) facts.checks.push(fact);
        for (const fact of accepted.judgements) facts.judgements.push(fact);
      }
      const repeats = fewRepeats();
      return { facts, issues: [...repeats.pass(issues.sort(byIssue)), ...repeats.rest()] };
    },
  };
}
