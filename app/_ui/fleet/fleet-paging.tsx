import { AppLink } from "../app-link.client.tsx";
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
  return (
    <div className="paging">
      <p>
        {rowsInWords(view.page, view.pageSize, total)}, {orders[view.sort]}
        {isFiltered(view) && (
          <>
            {" · "}
            <AppLink href={fleetAddress(view, { search: "", band: null, depot: null, model: null })}>
              Show all units
            </AppLink>
          </>
        )}
      </p>
      {total > view.pageSize && (
        <nav aria-label="Pages of the table" className="no-print">
          <Step href={view.page > 1 ? fleetAddress(view, { page: view.page - 1 }) : null}>Back</Step>
          <Step href={left > 0 ? fleetAddress(view, { page: view.page + 1 }) : null}>
            {left > 0 ? `Next ${Math.min(left, view.pageSize)}` : "Next"}
          </Step>
        </nav>
      )}
    </div>
  );
}

function Step({ href, children }: { readonly href: string | null; readonly children: React.ReactNode }) {
  if (href === null) {
    return (
      <span className="button-link" aria-disabled="true">
        {children}
      </span>
    );
  }
  return (
    <AppLink variant="button" href={href}>
      {children}
    </AppLink>
  );
}
