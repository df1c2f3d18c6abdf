import { canWait } from "../lib/plan/can-wait.ts";
import { planDocument, waitDocument } from "./plan-document.ts";
import { planFromFiles } from "./plan-from-files.ts";
import { planTables, waitTable } from "./plan-tables.ts";
import { Refusal } from "./refusal.ts";
import { print } from "./terminal.ts";

/** `borecast plan`: stateless; its options are those of `assess` and what the workshops have. */
export async function plan(args: readonly string[]): Promise<number> {
  const { told, own, json, isIncomplete } = await planFromFiles("plan", args);
  const unit = own["wait"];
  if (unit !== undefined) {
    const weeks = canWait(told.problem, unit);
    if (weeks.length === 0) throw new Refusal(`--wait ${unit}: this plan has no such unit with a forecast.`);
    await print(json ? `${JSON.stringify(waitDocument(told, unit, weeks))}\n` : waitTable(told, unit, weeks));
    return isIncomplete ? 1 : 0;
  }
  await print(json ? `${JSON.stringify(planDocument(told))}\n` : planTables(told));
  return isIncomplete ? 1 : 0;
}
