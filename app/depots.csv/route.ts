import { appStore } from "../../db/app-store.ts";
import { depotOverviews } from "../../db/depot-overview.ts";
import { depotsTable } from "../_ui/depots/depots-file.ts";
import { answered } from "../api/_http/answers.ts";
import { csvTableFile } from "../api/_http/csv.ts";

/** Every depot that is known, those retired among them. */
export const GET = () =>
  answered(async () => csvTableFile("depots", depotsTable(await depotOverviews(await appStore()))));
