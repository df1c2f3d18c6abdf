import { depotSetups, saysNothing } from "../../db/depots.ts";
import { standingModels } from "../../db/engine-models.ts";
import { factsInPieces, hasFacts } from "../../db/facts.ts";
import { factUnits } from "../../db/fleet-known.ts";
import { keptLayouts } from "../../db/layouts.ts";
import { allNotes } from "../../db/notes.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import {
  contractHeader,
  contractRows,
  factsOf,
  type WrittenKind,
  writtenKinds,
} from "../../lib/outtake/contract-csv.ts";
import type { HouseFile } from "../../lib/schema/written-house.ts";
import { JobError } from "./job-registry.ts";
import { breather } from "./progress.ts";

/** The name of each kind of CSV file. */
const csvFiles: Readonly<Record<WrittenKind, string>> = {
  depots: "depots.csv",
  units: "units.csv",
  "tests-long": "tests.csv",
  repairs: "repairs.csv",
  meters: "meters.csv",
  checks: "checks.csv",
  judgements: "judgements.csv",
};
export const modelsFile = "engine-models.json";

/** The next text of one of the files. */
export interface ExportPiece {
  readonly file: string;
  readonly text: string;
  /** Rows, models, notes … that this text holds. */
  readonly entries: number;
  /** How much of the fleet is written, 0 to 1. */
  readonly part: number;
}

/**
 * The whole store as files, piece by piece, in memory that does not grow with it: facts as the contract's CSV and engine
 * models as they stand over all imports, and what people told beside them (`writtenHouse`) as JSON. A kind that nothing is
 * known of has no file. Throws a `JobError` where the store holds no facts, and at the end where anybody changed it
 * meanwhile: what was written is then no one state of it.
 */
export async function* exportPieces(store: Store, signal?: AbortSignal): AsyncGenerator<ExportPiece> {
  const breathe = breather(signal);
  const version = store.version();
  if (!(await hasFacts(store))) throw new JobError("The database holds no facts: there is nothing to write.");
  yield* housePieces(store);
  const total = Math.max(1, (await factUnits(store)).length);
  const begun = new Set<WrittenKind>();
  const units = new Set<string>();
  for await (const facts of factsInPieces(store)) {
    for (const kind of writtenKinds) {
      const entries = factsOf(kind, facts).length;
      if (entries === 0) continue;
      const text = (begun.has(kind) ? "" : contractHeader(kind)) + contractRows(kind, facts);
      begun.add(kind);
      yield { file: csvFiles[kind], text, entries, part: units.size / total };
    }
    for (const list of [facts.units, facts.tests, facts.repairs, facts.meterReadings, facts.checks]) {
      for (const { unit } of list ?? []) units.add(unit);
    }
    await breathe();
  }
  if (store.version() !== version) {
    throw new JobError("The database was changed while it was written: nothing was kept. Write it again.");
  }
}

async function* housePieces(store: Store): AsyncGenerator<ExportPiece> {
  const models = await standingModels(store);
  if (models.length > 0) yield whole(modelsFile, "engineModels", models);
  yield whole("settings.json", "settings", await readSettings(store));
  const told = [...(await depotSetups(store))].filter(([, change]) => !saysNothing(change));
  const depots = told.map(([depot, { setup }]) => ({ depot, ...setup }));
  if (depots.length > 0) yield whole("depot-calendars.json", "depots", depots);
  const layouts = (await keptLayouts(store)).map(({ id: _id, withdrawn: _withdrawn, ...layout }) => layout);
  if (layouts.length > 0) yield whole("layouts.json", "layouts", layouts);
  yield* notePieces(store);
}

const whole = (file: HouseFile | typeof modelsFile, name: string, value: object): ExportPiece => ({
  file,
  text: `${JSON.stringify({ schemaVersion: 1, [name]: value }, null, 2)}\n`,
  entries: Array.isArray(value) ? value.length : Object.keys(value).length,
  part: 0,
});

/** A list in one file, though nobody holds all of it at once. */
async function* notePieces(store: Store): AsyncGenerator<ExportPiece> {
  const file: HouseFile = "notes.json";
  let written = 0;
  for await (const rows of allNotes(store)) {
    const lines = rows.map(({ id: _id, ...note }) => JSON.stringify(note));
    const before = written === 0 ? '{"schemaVersion":1,"notes":[\n' : ",\n";
    yield { file, text: before + lines.join(",\n"), entries: rows.length, part: 0 };
    written += rows.length;
  }
  if (written > 0) yield { file, text: "\n]}\n", entries: 0, part: 0 };
}
