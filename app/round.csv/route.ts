import { appStore } from "../../db/app-store.ts";
import { chunks } from "../../db/chunks.ts";
import { readSettings } from "../../db/settings.ts";
import { asOfDate } from "../_jobs/as-of.ts";
import { roundEntries, roundOf } from "../_jobs/round-of.ts";
import { readRoundAddress, roundPageSize } from "../_ui/round/address.ts";
import { roundFileHead, roundFileLine } from "../_ui/round/round-file.ts";
import { addressParts } from "../api/_http/address-parts.ts";
import { answered } from "../api/_http/answers.ts";
import { csvFile } from "../api/_http/csv.ts";

/** The test round that the address asks for as a file: every unit, on whichever page it stands. */
export const GET = (request: Request) =>
  answered(async () => {
    const { depot, days } = readRoundAddress(addressParts(request));
    const store = await appStore();
    const settings = await readSettings(store);
    const asOf = asOfDate(settings, new Date());
    const { until, units } = await roundOf(store, settings, { depot, days, asOf });
    async function* rows() {
      for (const some of chunks(units, roundPageSize)) {
        yield (await roundEntries(store, settings, { until, units: some })).map(roundFileLine);
      }
    }
    return csvFile(`test-round-${depot ?? "all"}-${until}`, roundFileHead, rows());
  });
