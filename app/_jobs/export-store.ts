import { depotSetups, saysNothing } from "../../db/depots.ts";
import { standingModels } from "../../db/engine-models.ts";
import { factsInPieces, hasFacts } from "../../db/facts.ts";
import { factUnits } from "../../db/fleet-known.ts";
import { keptLayouts } from "../../db/layouts.ts";
import { allNotes } from "../../db/notes.ts";
import { photoBytes, shownPhotos } from "../../db/photos.ts";
import { readSettings } from "../../db/settings.ts";
import type { Store } from "../../db/store.ts";
import { workshopTold } from "../../db/workshop.ts";
import {
  contractHeader,
  contractRows,
  factsOf,
  type WrittenKind,
  writtenKinds,
} from "../../lib/outtake/contract-csv.ts";
import type { HouseFile, WrittenNote, WrittenPhoto } from "../../lib/schema/written-house.ts";
import { JobError } from "./job-registry.ts";
import { photoFile } from "./photo-file.ts";
import { breather } from "./progress.ts";
import { workshopNow } from "./workshop-now.ts";

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

/** What is to be written next. */
export interface ExportPiece {
  /** Within the folder. */
  readonly file: string;
  /** A text is added to its file; bytes are a file of their own. */
  readonly content: string | Uint8Array;
  /** Rows, models, notes … that this piece holds; none of a photo, which is counted where it is named. */
  readonly entries: number;
  /** How much of the fleet is written, 0 to 1. */
  readonly part: number;
}

/**
 * The whole store as files, piece by piece, in memory that does not grow with it: facts as the contract's CSV and engine
 * models as they stand over all imports, what people told beside them (`writtenHouse`) as JSON, and the photos of repairs
 * as they were given. A kind that nothing is known of has no file. Throws a `JobError` where the store holds no facts, and at the end where anybody changed it
 * meanwhile: what was written is then no one state of it.
 */
export async function* exportPieces(store: Store, signal?: AbortSignal): AsyncGenerator<ExportPiece> {
  const breathe = breather(signal);
  const version = store.version();
  if (!(await hasFacts(store))) throw new JobError("The database holds no facts: there is nothing to write.");
  yield* housePieces(store, breathe);
  const total = Math.max(1, (await factUnits(store)).length);
  const begun = new Set<WrittenKind>();
  const units = new Set<string>();
  for await (const facts of factsInPieces(store)) {
    for (const kind of writtenKinds) {
      const entries = factsOf(kind, facts).length;
      if (entries === 0) continue;
      const content = (begun.has(kind) ? "" : contractHeader(kind)) + contractRows(kind, facts);
      begun.add(kind);
      yield { file: csvFiles[kind], content, entries, part: units.size / total };
    }
    for (const list of [facts.units, facts.tests, facts.repairs, facts.meterReadings, facts.checks, facts.judgements]) {
      for (const { unit } of list ?? []) units.add(unit);
    }
    await breathe();
  }
  if (store.version() !== version) {
    throw new JobError("The database was changed while it was written: nothing was kept. Write it again.");
  }
}

/** Ends the work where nobody waits for it any more. */
type Breathe = ReturnType<typeof breather>;

async function* housePieces(store: Store, breathe: Breathe): AsyncGenerator<ExportPiece> {
  const models = await standingModels(store);
  if (models.length > 0) yield whole(modelsFile, "engineModels", models);
  yield whole("settings.json", "settings", await readSettings(store));
  const told = [...(await depotSetups(store))].filter(([, change]) => !saysNothing(change));
  const depots = told.map(([depot, { setup }]) => ({ depot, ...setup }));
  if (depots.length > 0) yield whole("depot-calendars.json", "depots", depots);
  const { workshop } = await workshopNow(store);
  const isTold = (await workshopTold(store)).id > 0 || workshop.pins.length > 0;
  if (isTold || depots.length > 0) yield document("workshop.json", workshop, 1);
  const layouts = (await keptLayouts(store)).map(({ id: _id, withdrawn: _withdrawn, ...layout }) => layout);
  if (layouts.length > 0) yield whole("layouts.json", "layouts", layouts);
  yield* notePieces(store);
  yield* photoPieces(store, breathe);
}

const whole = (file: HouseFile | typeof modelsFile, name: string, value: object): ExportPiece =>
  document(file, { schemaVersion: 1, [name]: value }, Array.isArray(value) ? value.length : Object.keys(value).length);

const document = (file: HouseFile | typeof modelsFile, value: object, entries: number): ExportPiece => ({
  file,
  content: `${JSON.stringify(value, null, 2)}\n`,
  entries,
  part: 0,
});

/** A list in one file, though nobody holds all of it at once. */
function listFile(file: HouseFile, name: string) {
  let written = 0;
  return {
    next: (lines: readonly object[]): ExportPiece => {
      const before = written === 0 ? `{"schemaVersion":1,"${name}":[\n` : ",\n";
      written += lines.length;
      const content = before + lines.map((line) => JSON.stringify(line)).join(",\n");
      return { file, content, entries: lines.length, part: 0 };
    },
    end: (): readonly ExportPiece[] => (written === 0 ? [] : [{ file, content: "\n]}\n", entries: 0, part: 0 }]),
  };
}

async function* notePieces(store: Store): AsyncGenerator<ExportPiece> {
  const list = listFile("notes.json", "notes");
  for await (const rows of allNotes(store)) yield list.next(rows.map(({ id: _id, ...note }): WrittenNote => note));
  yield* list.end();
}

/** The bytes of each photo, once where several photos have the same, and the list that names them. */
async function* photoPieces(store: Store, breathe: Breathe): AsyncGenerator<ExportPiece> {
  const list = listFile("photos.json", "photos");
  const written = new Set<string>();
  for await (const rows of shownPhotos(store)) {
    const lines: WrittenPhoto[] = [];
    for (const { id, type, unit, date, scope, cylinders, name, by, at } of rows) {
      const bytes = await photoBytes(store, id);
      const file = photoFile(type, bytes);
      if (!written.has(file)) yield { file, content: bytes, entries: 0, part: 0 };
      written.add(file);
      await breathe();
      lines.push({ file, unit, date, scope, cylinders, name, by, at });
    }
    if (lines.length > 0) yield list.next(lines);
  }
  yield* list.end();
}
