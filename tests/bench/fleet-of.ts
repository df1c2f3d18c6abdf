import { writeFileSync } from "node:fs";
import path from "node:path";
import { commitImport } from "../../app/_jobs/commit-import.ts";
import { fileSource } from "../../app/_jobs/file-source.ts";
import { stageImport } from "../../app/_jobs/stage-import.ts";
import { changeSettings } from "../../db/settings.ts";
import { openStore } from "../../db/store.ts";
import { asOf, readingsOfUnit, writeResults } from "./generate.ts";

const depots = ["Northfold", "Stonecombe", "Westmere", "Eastley", "Sedgerow"] as const;

/** Brings a made-up fleet of so many units, spread over depots, into a new store by the app's own import. */
export async function fillStore(folder: string, databaseFile: string, units: number): Promise<void> {
  const files = await writeResults(folder, units * readingsOfUnit);
  const unitsFile = path.join(folder, `units-${units}.csv`);
  const rows = Array.from(
    { length: units },
    (_, i) => `U-${i + 1},bench-4,h,${depots[i % depots.length]},van,BE-${i + 1},in-service`,
  );
  writeFileSync(unitsFile, ["unit,engine_model,meter_unit,depot,class,engine_serial,status", ...rows, ""].join("\n"));
  const depotsFile = path.join(folder, "depots.csv");
  writeFileSync(depotsFile, ["depot,altitude_m", ...depots.map((depot) => `${depot},20`), ""].join("\n"));

  const at = `${asOf}T12:00:00Z`;
  const act = { by: "Bench", now: new Date(at) };
  const store = await openStore(databaseFile);
  try {
    await changeSettings(store, { asOf }, { by: act.by, at });
    const sources = await Promise.all([files.results, files.models, unitsFile, depotsFile].map(fileSource));
    const staged = await stageImport(store, sources, act);
    if (staged.refusedRows > 0) throw new Error(`${staged.refusedRows} rows were refused`);
    const outcome = await commitImport(store, staged.id, { ...act, takeChanges: false }, {});
    if (!outcome.ok || outcome.value.units !== units) throw new Error(`not committed: ${JSON.stringify(outcome)}`);
  } finally {
    await store.close();
  }
}
