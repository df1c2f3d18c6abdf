import { AppLink } from "../app-link.client.tsx";
import { Paging } from "../paging.tsx";
import { type FleetView, fleetAddress, isFiltered } from "./address.ts";
import { rowsInWords } from "./finding.ts";

const orders = {
  due: "by due date",
  unit: "by unit",
  band: "by band",
  "last-test": "by last test",
  use: "by use",
} as const satisfies Record<FleetView["sort"], string>;

/** Which rows these are, and the way to those before and after. */
export function FleetPaging({ view, total }: { readonly view: FleetView; readonly total: number }) {
  const left = Math.max(0, total - view.page * view.pageSize);
  const says = (
    <>
      {rowsInWords(view.page, view.pageSize, total)}, {orders[view.sort]}
      {isFiltered(view) && (
        <>
          {" · "}
          <AppLink href={fleetAddress(view, { search: "", band: null, depot: null, model: null })}>
            Show all units
          </AppLink>
        </>
      )}
    </>
  );
  return (
    <Paging
      says={says}
      label="Pages of the table"
      steps={
        total > view.pageSize
          ? [
              { href: view.page > 1 ? fleetAddress(view, { page: view.page - 1 }) : null, says: "Back" },
              {
                href: left > 0 ? fleetAddress(view, { page: view.page + 1 }) : null,
                says: left > 0 ? `Next ${Math.min(left, view.pageSize)}` : "Next",
              },
            ]
          : null
      }
    />
  );
}
