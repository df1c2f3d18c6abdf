import { appStore } from "../../db/app-store.ts";
import { fleetUnits } from "../../db/fleet.ts";
import { readSettings } from "../../db/settings.ts";
import { asOfDate } from "../_jobs/as-of.ts";
import { readFleetAddress } from "../_ui/fleet/address.ts";
import { fleetFile } from "../_ui/fleet/fleet-file.ts";
import { addressParts } from "../api/_http/address-parts.ts";
import { answered } from "../api/_http/answers.ts";
import { byteOrderMark, csvLine } from "../api/_http/csv.ts";

/** The view that the address asks for as a file: every unit of it, on whichever page it stands. */
export const GET = (request: Request) =>
  answered(async () => {
    const view = readFleetAddress(addressParts(request), { phone: false });
    const store = await appStore();
    const [rows, settings] = await Promise.all([fleetUnits(store, view), readSettings(store)]);
    const asOf = asOfDate(settings, new Date());
    return new Response(byteOrderMark + fleetFile(rows, view.columns).map(csvLine).join(""), {
      headers: {
        "content-type": "text/csv; charset=utf-8",
        "content-disposition": `attachment; filename="fleet-${asOf}.csv"`,
        "cache-control": "no-store",
      },
    });
  });
