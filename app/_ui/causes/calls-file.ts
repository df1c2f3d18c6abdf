import { type CsvTable, csvTable } from "../../../lib/outtake/csv-table.ts";
import { outcomeWords } from "./call-words.ts";
import type { ModelCalls } from "./told-calls.ts";

/** Every cylinder that was opened: what was called before, on what day it was issued (empty: told by today’s table), and what was found. */
export const callsTable = (models: readonly ModelCalls[]): CsvTable =>
  csvTable(
    models.flatMap(({ engineModel, calls }) => calls.map((call) => ({ engineModel, call }))),
    {
      engine_model: ({ engineModel }) => engineModel,
      engine: ({ call }) => call.case.engine,
      unit: ({ call }) => call.case.unit,
      repair_date: ({ call }) => call.case.date,
      cylinder: ({ call }) => call.case.cylinder,
      scope: ({ call }) => call.case.scope,
      called_class: ({ call }) => call.called?.class ?? null,
      called_probability: ({ call }) => call.called?.probability ?? null,
      called_cause: ({ call }) => call.called?.cause ?? null,
      called_on: ({ call }) => call.issued,
      found: ({ call }) => (call.case.found.length === 0 ? "sound" : call.case.found.join("+")),
      found_class: ({ call }) => call.found,
      outcome: ({ call }) => outcomeWords(call),
    },
  );
