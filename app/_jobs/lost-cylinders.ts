import { readingsBeyond } from "../../db/readings-beyond.ts";
import type { Store } from "../../db/store.ts";
import type { ModelsToJudge } from "../../lib/intake/judge-unit.ts";
import { issueAt } from "../../lib/intake/unit-rows.ts";
import { fileIssue, words } from "../../lib/intake/words.ts";
import type { EngineModel } from "../../lib/schema/engine-model.ts";
import type { UnitFact } from "../../lib/schema/facts.ts";
import type { KnownFleet, RowIssue } from "../../lib/schema/intake.ts";
import type { ReadSources } from "./read-sources.ts";

/**
 * Warnings of known readings that will be shown nowhere, for the files give their unit an engine with fewer cylinders:
 * another model, or another description of its model.
 */
export async function lostCylinders(
  store: Store,
  given: {
    readonly models: ModelsToJudge;
    readonly known: Pick<KnownFleet, "units">;
    readonly read: Pick<ReadSources, "models">;
    /** Rows that give a known unit another model. */
    readonly changedEngines: readonly UnitFact[];
  },
): Promise<RowIssue[]> {
  const { models, known, read, changedEngines } = given;
  const issues: RowIssue[] = [];
  const lost = async (units: readonly string[], model: EngineModel) => {
    const found = await readingsBeyond(store, units, model.cylinders);
    return found.size === 0 ? null : words.cylindersLost([...found.keys()].sort(), model);
  };
  for (const fact of changedEngines) {
    const model = models.changed.get(fact.engineModel ?? "");
    const why = model === undefined ? null : await lost([fact.unit], model);
    const column = "engine_model";
    const issue = { severity: "warning", code: "cylinders-lost", column, value: fact.engineModel } as const;
    if (why !== null) issues.push(issueAt(fact, issue, why));
  }
  for (const { file, model } of read.models) {
    const before = models.known.get(model.id);
    if (before === undefined || before.cylinders <= model.cylinders) continue;
    const units = [...known.units].filter(([, { engineModel }]) => engineModel === model.id).map(([unit]) => unit);
    const why = await lost(units, model);
    if (why === null) continue;
    const issue = fileIssue("warning", "cylinders-lost", { file }, why);
    issues.push({ ...issue, column: "cylinders", value: String(model.cylinders), entry: model.id });
  }
  return issues;
}
