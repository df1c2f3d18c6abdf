import { appStore } from "../../../db/app-store.ts";
import { workshopHistory } from "../../../db/workshop.ts";
import { workshopTable } from "../../_ui/history-files.ts";
import { answered } from "../../api/_http/answers.ts";
import { csvTableFile } from "../../api/_http/csv.ts";

/** Every change of prices and workshops that is on file, value by value. */
export const GET = () =>
  answered(async () => {
    const history = await workshopHistory(await appStore(), { limit: Number.MAX_SAFE_INTEGER });
    return csvTableFile("workshop-changes", workshopTable(history));
  });
