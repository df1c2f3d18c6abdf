import type { FileKind } from "../../../lib/schema/words.ts";

/** What a file is, as a person says it, and the invented sample of it that may be downloaded. */
export const kindsOfFile = {
  "engine-models": { title: "Engine models", sample: "engine-models.json" },
  "tests-long": { title: "Test results, a row for each cylinder", sample: "results.csv" },
  "tests-wide": { title: "Test results, a row for each test", sample: "results-wide.csv" },
  units: { title: "Units", sample: "units.csv" },
  depots: { title: "Depots", sample: "depots.csv" },
  repairs: { title: "Repairs", sample: "repairs.csv" },
  meters: { title: "Meter readings", sample: "meters.csv" },
  judgements: { title: "Judgements of tests", sample: "judgements.csv" },
  checks: { title: "Other checks", sample: "checks.csv" },
} as const satisfies Record<FileKind, { readonly title: string; readonly sample: string }>;

export const sampleAddress = (kind: FileKind): string => `/samples/${kindsOfFile[kind].sample}`;
