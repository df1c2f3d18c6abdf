import { appStore } from "../../db/app-store.ts";
import { enginePage } from "../../db/engines.ts";
import { readEnginesAddress } from "../_ui/engines/address.ts";
import { enginesTable } from "../_ui/engines/engine-files.ts";
import { answered } from "../api/_http/answers.ts";
import { csvFile } from "../api/_http/csv.ts";

const enginesAtATime = 200;

/** The engines that the address asks for as a file: every one, on whichever page it stands. Sent piece by piece. */
export const GET = (request: Request) =>
  answered(async () => {
    const { search } = readEnginesAddress(Object.fromEntries(new URL(request.url).searchParams));
    const store = await appStore();
    async function* rows() {
      for (let page = 1; ; page++) {
        const { rows: some, total } = await enginePage(store, { search, page, pageSize: enginesAtATime });
        yield enginesTable(some).rows;
        if (page * enginesAtATime >= total) return;
      }
    }
    return csvFile("engines", enginesTable([]).head, rows());
  });
