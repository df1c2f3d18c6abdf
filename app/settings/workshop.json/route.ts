import { appStore } from "../../../db/app-store.ts";
import { workshopNow } from "../../_jobs/workshop-now.ts";
import { answered } from "../../api/_http/answers.ts";

/** Prices, workshops and pins as `borecast plan --workshop` reads them. */
export const GET = () =>
  answered(async () => {
    const { workshop } = await workshopNow(await appStore());
    return new Response(`${JSON.stringify(workshop, null, 2)}\n`, {
      headers: { "content-type": "application/json; charset=utf-8", "cache-control": "no-store" },
    });
  });
