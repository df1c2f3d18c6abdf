import { loadDemo } from "../app/_jobs/demo.ts";
import { rebuild } from "../app/_jobs/rebuild.ts";
import { numberWords } from "../lib/wording.ts";
import { readArguments, refuseWords } from "./arguments.ts";
import { controlFor } from "./job-progress.ts";
import { personHere } from "./person.ts";
import { demoFolder } from "./project.ts";
import { withStore } from "./store-command.ts";
import { print, progressLine, tell } from "./terminal.ts";

/** `borecast migrate`: opening the database is all it takes. */
export async function migrateStore(args: readonly string[]): Promise<number> {
  refuseWords("migrate", readArguments("migrate", args, {}).positionals);
  await withStore(async () => undefined);
  return 0;
}

export async function demo(args: readonly string[], now: Date): Promise<number> {
  refuseWords("demo", readArguments("demo", args, {}).positionals);
  const progress = progressLine();
  const loaded = await withStore((store, signal) => loadDemo(store, demoFolder, now, controlFor(progress, signal)));
  progress.clear();
  const left = tellNotAssessed(loaded?.notAssessed ?? []);
  await print(
    loaded === null
      ? "The database holds facts already: nothing was changed.\n"
      : `The demo fleet is in: ${numberWords(loaded.counts.newRows)} rows, ${numberWords(loaded.units)} units.\n`,
  );
  return left;
}

export async function rebuildStore(args: readonly string[], now: Date): Promise<number> {
  refuseWords("rebuild", readArguments("rebuild", args, {}).positionals);
  const progress = progressLine();
  const act = { by: personHere(), now };
  const { units, notAssessed } = await withStore((store, signal) => rebuild(store, act, controlFor(progress, signal)));
  progress.clear();
  const left = tellNotAssessed(notAssessed);
  await print(`Made anew: ${numberWords(units)} ${units === 1 ? "unit" : "units"}.\n`);
  return left;
}

/** Names each unit that could not be assessed, and gives the exit status. */
function tellNotAssessed(notAssessed: readonly string[]): 0 | 1 {
  for (const words of notAssessed) tell(`${words}.`);
  return notAssessed.length > 0 ? 1 : 0;
}
