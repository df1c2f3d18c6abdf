import { appStore } from "../../db/app-store.ts";
import { settingChanges } from "../../db/settings.ts";
import { settingsTable } from "../_ui/history-files.ts";
import { answered } from "../api/_http/answers.ts";
import { csvTableFile } from "../api/_http/csv.ts";

/** Every change of a setting that is on file. */
export const GET = () =>
  answered(async () => {
    const changes = await settingChanges(await appStore(), { limit: Number.MAX_SAFE_INTEGER });
    return csvTableFile("settings-changes", settingsTable(changes));
  });
