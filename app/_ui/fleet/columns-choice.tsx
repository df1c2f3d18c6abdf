import Form from "next/form";
import { AppLink } from "../app-link.client.tsx";
import { type FleetView, fleetAddress, fleetAddressFields } from "./address.ts";
import { columnIds, columnOf, usualColumns } from "./columns.ts";

/** Which columns stand between the unit and the axis. A GET form, so that it works without script. */
export function ColumnsChoice({ view }: { readonly view: FleetView }) {
  const others = fleetAddressFields({ ...view, columns: usualColumns, page: 1 });
  return (
    <details key={view.columns.join(" ")} className="columns-choice">
      <summary className="button-link">Columns</summary>
      <Form action="/" scroll={false} prefetch={false} className="columns-form">
        {others.map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        {/* So that a form without any tick is told from an address that says nothing of columns. */}
        <input type="hidden" name="columns" value="unit" />
        <fieldset>
          <legend>Shown beside the unit and the axis</legend>
          {columnIds.map((id) => (
            <label key={id}>
              <input type="checkbox" name="columns" value={id} defaultChecked={view.columns.includes(id)} />
              {columnOf(id).title ?? columnOf(id).head}
            </label>
          ))}
        </fieldset>
        <p className="second small">
          Where the window is too narrow for all, some leave before the axis does; the CSV file holds them all.
        </p>
        <div className="form-buttons">
          <button type="submit" className="button-link">
            Show these
          </button>
          <AppLink href={fleetAddress(view, { columns: usualColumns, page: view.page })} scroll={false}>
            As usual
          </AppLink>
        </div>
      </Form>
    </details>
  );
}
