import { appStore } from "../../db/app-store.ts";
import { standingModels, unitsByModel } from "../../db/engine-models.ts";
import { modelsTable } from "../_ui/models/models-file.ts";
import { answered } from "../api/_http/answers.ts";
import { csvTableFile } from "../api/_http/csv.ts";

/** Every engine model in force, those retired among them. */
export const GET = () =>
  answered(async () => {
    const store = await appStore();
    return csvTableFile("engine-models", modelsTable(await standingModels(store), await unitsByModel(store)));
  });
