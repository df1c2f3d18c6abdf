import { appStore } from "../../db/app-store.ts";
import { fleetUnits } from "../../db/fleet.ts";
import { readSettings } from "../../db/settings.ts";
import { asOfDate } from "../_jobs/as-of.ts";
import { readFleetAddress } from "../_ui/fleet/address.ts";
import { fleetFile } from "../_ui/fleet/fleet-file.ts";
import { addressParts } from "../api/_http/address-parts.ts";
import { answered } from "../api/_http/answers.ts";
import { csvFile } from "../api/_http/csv.ts";

/** The view that the address asks for as a file: every unit of it, on whichever page it stands. */
export const GET = (request: Request) =>
  answered(async () => {
    const view = readFleetAddress(addressParts(request), { phone: false });
    const store = await appStore();
    const [units, settings] = await Promise.all([fleetUnits(store, view), readSettings(store)]);
    const [head = [], ...rows] = fleetFile(units, view.columns);
    return csvFile(`fleet-${asOfDate(settings, new Date())}`, head, rows);
  });
