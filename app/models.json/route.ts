import { appStore } from "../../db/app-store.ts";
import { standingModels } from "../../db/engine-models.ts";
import { answered } from "../api/_http/answers.ts";

/** The engine models in force as a file that can be imported again. */
export const GET = () =>
  answered(async () => {
    const engineModels = await standingModels(await appStore());
    return new Response(`${JSON.stringify({ schemaVersion: 1, engineModels }, null, 2)}\n`, {
      headers: { "content-type": "application/json; charset=utf-8", "cache-control": "no-store" },
    });
  });
