import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import type { ComesAlong } from "../../db/import-state.ts";
import { type Workshop, workshopSchema } from "../../lib/schema/workshop.ts";
import { type HouseFile, writtenHouse } from "../../lib/schema/written-house.ts";
import { modelsFile } from "./export-store.ts";
import { JobError } from "./job-registry.ts";
import { readPhoto } from "./photo-file.ts";

/** A folder that `borecast export` wrote. */
export interface ExportedFolder {
  /** Paths of its CSV files and engine models, ascending. */
  readonly files: readonly string[];
  readonly along: ComesAlong;
}

/** Reads what lies in an exported folder; throws a `JobError` where a file of it is not what the export writes. */
export async function readExportedFolder(folder: string): Promise<ExportedFolder> {
  const names = (await readdir(folder)).sort();
  const read = async <F extends HouseFile>(name: F) =>
    names.includes(name) ? parsed(name, await readFile(path.join(folder, name), "utf8")) : null;
  const settings = await read("settings.json");
  const calendars = await read("depot-calendars.json");
  const workshop = await read("workshop.json");
  const notes = await read("notes.json");
  const layouts = await read("layouts.json");
  const photos = (await read("photos.json"))?.photos ?? [];
  // Looked at before anything is taken; nobody holds all of them at once.
  for (const { file } of photos) await readPhoto(folder, file);
  return {
    files: names.filter((name) => name.endsWith(".csv") || name === modelsFile).map((name) => path.join(folder, name)),
    along: {
      settings: settings?.settings ?? {},
      // Entries, as a depot may be called anything.
      depots: Object.fromEntries((calendars?.depots ?? []).map(({ depot, ...setup }) => [depot, setup])),
      ...(workshop !== null && tellsPrices(workshop) && { workshop }),
      notes: notes?.notes ?? [],
      layouts: layouts?.layouts ?? [],
      photos: photos.map(({ file, ...photo }) => ({ ...photo, read: () => readPhoto(folder, file) })),
    },
  };
}

/** Whether a workshop's document says more than what depots have, which stands in their calendars as well. */
const tellsPrices = (workshop: Workshop): boolean =>
  JSON.stringify({ ...workshop, depots: {} }) !== JSON.stringify(workshopSchema.parse({}));

type Written<F extends HouseFile> = ReturnType<(typeof writtenHouse)[F]["parse"]>;

function parsed<F extends HouseFile>(name: F, text: string): Written<F> {
  const why = (reason: string) => new JobError(`${name} is not what an export writes: ${reason}. Nothing was taken.`);
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw why("it is not JSON");
  }
  const result = writtenHouse[name].safeParse(json);
  const issue = result.error?.issues[0];
  if (issue !== undefined) throw why(`${issue.path.join(".") || "the whole"}: ${issue.message.replace(/\.$/, "")}`);
  // Parsed by the schema of that name.
  return result.data as Written<F>;
}
