import { planDocument } from "./plan-document.ts";
import { planFromFiles } from "./plan-from-files.ts";
import { planTables } from "./plan-tables.ts";
import { print } from "./terminal.ts";

/** `borecast plan`: stateless; its options are those of `assess` and what the workshops have. */
export async function plan(args: readonly string[]): Promise<number> {
  const { told, json, isIncomplete } = await planFromFiles("plan", args);
  await print(json ? `${JSON.stringify(planDocument(told))}\n` : planTables(told));
  return isIncomplete ? 1 : 0;
}
