import { appStore } from "../../db/app-store.ts";
import { keptTrackRecord, trackCases } from "../../db/track-record.ts";
import { readRecordAddress } from "../_ui/record/address.ts";
import { limitsTable, readingsOfGroup, readingsTable, scoresTable } from "../_ui/record/track-record-files.ts";
import { addressParts } from "../api/_http/address-parts.ts";
import { answered, refusal } from "../api/_http/answers.ts";
import { csvTableFile } from "../api/_http/csv.ts";

const tables = ["scores", "limits", "misses", "readings"] as const;
const isTable = (name: string): boolean => tables.some((table) => table === name);

/** The figures of the Track record, or the forecasts behind them: all, or those of one group of the page. */
export const GET = (request: Request) =>
  answered(async () => {
    const parts = addressParts(request);
    const name = parts["table"]?.[0] ?? "scores";
    if (!isTable(name)) return refusal(404, "The page has no table of this name.");
    const store = await appStore();
    const kept = await keptTrackRecord(store);
    if (kept === null) return refusal(404, "No track record has been made yet.");
    if (name === "scores") return csvTableFile("track-record-scores", scoresTable(kept.record));
    const { levels, limits } = await trackCases(store);
    if (name === "limits") return csvTableFile("track-record-limits", limitsTable(limits));
    if (name === "misses") {
      const missed = levels.filter(({ reason }) => reason !== null);
      return csvTableFile("track-record-misses", readingsTable(missed));
    }
    const key = parts["key"]?.[0];
    if (key === undefined) return csvTableFile("track-record-readings", readingsTable(levels));
    const { measure, by } = readRecordAddress(parts);
    const some = readingsOfGroup(levels, { measure, by, key: key === "" ? null : key });
    return csvTableFile(`track-record-readings-${by}-${key}`, readingsTable(some));
  });
