import { settingsSchema } from "../lib/schema/settings.ts";
import { backTest, factsToJudge } from "../lib/track/back-test.ts";
import { trackRecordOf } from "../lib/track/record.ts";
import { readAssessOptions } from "./assess-options.ts";
import { recordTables } from "./backtest-tables.ts";
import { readFleet } from "./read-fleet.ts";
import { bar, print, progressLine } from "./terminal.ts";

const progress = progressLine();

/** `borecast backtest`: stateless; options and exit status are those of `assess`. */
export async function backtest(args: readonly string[]): Promise<number> {
  const options = readAssessOptions("backtest", args);
  const read = await readFleet(options, "backtest", progress);
  const { asOf } = read;
  const settings = settingsSchema.parse({ horizonYears: options.horizonYears });
  progress.show("Putting the tests in order …");
  const { facts, known } = factsToJudge(read.facts, asOf);
  const steps = backTest(facts, { asOf, settings }, known);
  let step = steps.next();
  for (; !step.done; step = steps.next()) progress.show(`Going through the past  ${bar(step.value)}`);
  progress.clear();
  const record = trackRecordOf(step.value, null);
  await print(options.json ? `${JSON.stringify(record)}\n` : recordTables(record));
  return read.refused > 0 ? 1 : 0;
}
