import Form from "next/form";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { Paging } from "../paging.tsx";
import { allUnits, type FleetView, fleetAddress, fleetAddressFields, isFiltered, rowChoices } from "./address.ts";
import { rowsInWords } from "./finding.ts";
import { orderWords } from "./view-words.ts";

/** Which rows these are, the way to those before and after, to any page, and how many a page shows. */
export function FleetPaging(props: { readonly view: FleetView; readonly total: number; readonly f: Formats }) {
  const { view, total, f } = props;
  const left = Math.max(0, total - view.page * view.pageSize);
  const pages = Math.max(1, Math.ceil(total / view.pageSize));
  const says = (
    <>
      {rowsInWords(view, total, f)}, {orderWords(view)}
      {isFiltered(view) && (
        <span className="no-print">
          {" · "}
          <AppLink href={fleetAddress(view, allUnits)}>Show all units</AppLink>
        </span>
      )}
    </>
  );
  return (
    <>
      <Paging
        says={says}
        label="Pages of the table"
        steps={
          pages > 1
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
      {total > rowChoices[0] && (
        <div className="paging-more no-print">
          <RowsChoice view={view} />
          {pages > 2 && <PageChoice view={view} pages={pages} f={f} />}
        </div>
      )}
    </>
  );
}

function RowsChoice({ view }: { readonly view: FleetView }) {
  return (
    <div className="rows-choice">
      <span aria-hidden="true">Units a page</span>
      <nav className="segments" aria-label="Units a page">
        {rowChoices.map((rows) => (
          <AppLink
            key={rows}
            variant="bare"
            href={fleetAddress(view, { rows })}
            scroll={false}
            {...(rows === view.pageSize ? { "aria-current": "true" as const } : {})}
          >
            {rows}
            <span className="visually-hidden"> units a page</span>
          </AppLink>
        ))}
      </nav>
    </div>
  );
}

function PageChoice(props: { readonly view: FleetView; readonly pages: number; readonly f: Formats }) {
  const { view, pages, f } = props;
  return (
    <Form action="/" prefetch={false} className="page-choice" key={view.page}>
      {fleetAddressFields({ ...view, page: 1 }).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <label>
        Page <input type="number" name="page" min={1} max={pages} defaultValue={view.page} required /> of{" "}
        {f.number(pages)}
      </label>
      <button type="submit" className="button-link">
        Go
      </button>
    </Form>
  );
}
