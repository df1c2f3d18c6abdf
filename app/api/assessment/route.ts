import { appStore } from "../../../db/app-store.ts";
import { keptAsOf } from "../../../db/assessments.ts";
import { keptAssessments } from "../../../db/kept-assessments.ts";
import { readSettings } from "../../../db/settings.ts";
import type { Store } from "../../../db/store.ts";
import type { Assessment } from "../../../lib/schema/assessment.ts";
import { asOfDate } from "../../_jobs/as-of.ts";
import { answered } from "../_http/answers.ts";
import { textStream } from "../_http/text-stream.ts";

/** The kept assessment of the whole fleet, as `borecast assess --json` prints one. Sent unit by unit. */
export const GET = () =>
  answered(async () => {
    const store = await appStore();
    const asOf = (await keptAsOf(store)) ?? asOfDate(await readSettings(store), new Date());
    return new Response(textStream(assessmentText(store, asOf)), {
      headers: { "content-type": "application/json", "cache-control": "no-store" },
    });
  });

async function* assessmentText(store: Store, asOf: string): AsyncGenerator<string> {
  const schemaVersion: Assessment["schemaVersion"] = 1;
  yield `{"schemaVersion":${schemaVersion},"asOf":${JSON.stringify(asOf)},"units":[`;
  let before = "";
  for await (const units of keptAssessments(store)) {
    yield before + units.map((unit) => JSON.stringify(unit)).join(",");
    before = ",";
  }
  yield "]}\n";
}
