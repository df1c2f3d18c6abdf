import { ratesTable } from "@/app/_ui/compare/compare-files.ts";
import { readRatesAddress } from "@/app/_ui/compare/rate-words.ts";
import { answered } from "@/app/api/_http/answers.ts";
import { csvTableFile } from "@/app/api/_http/csv.ts";
import { appStore } from "@/db/app-store.ts";
import { modelRates } from "@/db/unit-courses.ts";

/** Rates by model and depot, as the address asks for them. */
export const GET = (request: Request) =>
  answered(async () => {
    const view = readRatesAddress(Object.fromEntries(new URL(request.url).searchParams));
    const models = await modelRates(await appStore(), view.measure);
    return csvTableFile(`rates-${view.measure}-${view.of}`, ratesTable(models, view));
  });
