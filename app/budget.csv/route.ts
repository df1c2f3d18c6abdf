import { appStore } from "../../db/app-store.ts";
import { scenariosTold } from "../../db/scenarios.ts";
import { drawnBridge } from "../_jobs/bridge-of.ts";
import { budgetTables, readBudgetAddress } from "../_ui/budget/address.ts";
import {
  bridgeTable,
  frozenTable,
  groupsTable,
  movesTable,
  scenariosTable,
  spansTable,
  spentTable,
  unitsTable,
} from "../_ui/budget/budget-files.ts";
import { budgetNow, whyNoBridge } from "../_ui/budget/budget-now.ts";
import { addressParts } from "../api/_http/address-parts.ts";
import { answered, plainRefusal } from "../api/_http/answers.ts";
import { csvTableFile } from "../api/_http/csv.ts";

/** The tables of the Budget and of its what-ifs. */
export const GET = (request: Request) =>
  answered(async () => {
    const parts = addressParts(request);
    const asked = parts["table"]?.[0] ?? "spans";
    const table = budgetTables.find((name) => name === asked);
    if (table === undefined) return plainRefusal(404, "The page has no table of this name.");
    const store = await appStore();
    const kept = await budgetNow(store, readBudgetAddress(parts));
    if (kept === null) return plainRefusal(404, "No budget has been drawn yet.");
    const { row, told, head, was, frozen } = kept;
    const name = `budget-${table}-${row.asOf}`;
    switch (table) {
      case "spans":
        return csvTableFile(name, spansTable(row.document));
      case "units":
        return csvTableFile(name, unitsTable(row.document));
      case "groups":
        return csvTableFile(name, groupsTable(told, was?.told ?? null));
      case "spent":
        return csvTableFile(name, spentTable(head));
      case "frozen":
        return csvTableFile(name, frozenTable(frozen));
      case "scenarios":
        return csvTableFile(name, scenariosTable(await scenariosTold(store)));
      case "moves":
        return csvTableFile(name, movesTable(await scenariosTold(store)));
      case "bridge": {
        if (was === null)
          return plainRefusal(404, "No budget is frozen, so there is no bridge. Freeze one on the Budget page first.");
        const bridge = await drawnBridge(store, { was: was.row, now: row, year: told.drawn.name });
        if (bridge === null) return plainRefusal(503, "The bridge could not be drawn just now. Ask for it again.");
        return typeof bridge === "string"
          ? plainRefusal(404, whyNoBridge(kept, { bridge }) ?? "")
          : csvTableFile(name, bridgeTable(bridge, told.currency));
      }
    }
  });
