import { appStore } from "../../db/app-store.ts";
import { changedUnits } from "../../db/changes.ts";
import { readSettings } from "../../db/settings.ts";
import { changeFrame } from "../../lib/changes/compare.ts";
import { asOfDate } from "../_jobs/as-of.ts";
import { readChangesAddress } from "../_ui/changes/address.ts";
import { changesFileHead, changesFileLine } from "../_ui/changes/changes-file.ts";
import { sinceOf } from "../_ui/changes/since.ts";
import { toldChange } from "../_ui/changes/told-change.ts";
import { addressParts } from "../api/_http/address-parts.ts";
import { answered } from "../api/_http/answers.ts";
import { csvFile } from "../api/_http/csv.ts";

const unitsAtATime = 200;

/** The changes that the address asks for as a file: every unit, on whichever page it stands. Sent piece by piece. */
export const GET = (request: Request) =>
  answered(async () => {
    const view = readChangesAddress(addressParts(request));
    const store = await appStore();
    const settings = await readSettings(store);
    const now = new Date();
    const frame = changeFrame(settings, asOfDate(settings, now));
    const since = await sinceOf(store, view.since, { settings, now });

    async function* rows() {
      for (let page = 1; ; page++) {
        const asked = { ...view, page, pageSize: unitsAtATime };
        const { units, total } = await changedUnits(store, { ...frame, since: since.at }, asked);
        yield units.map((unit) => changesFileLine(toldChange(unit, frame)));
        if (page * unitsAtATime >= total) return;
      }
    }

    return csvFile(`changes-since-${since.date}`, changesFileHead, rows());
  });
