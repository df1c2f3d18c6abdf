import { AppLink } from "../app-link.client.tsx";
import { PrintButton } from "../print-button.client.tsx";
import { roundAddress } from "../round/address.ts";
import { type FleetView, fleetFileAddress } from "./address.ts";
import { ColumnsChoice } from "./columns-choice.tsx";
import { FilterForm, type FleetOptions } from "./filter-form.client.tsx";
import { SpanChoice } from "./span-choice.tsx";
import { narrowedWords } from "./view-words.ts";

/** What the table shows and how: search and filters, groups, years, columns; and the ways it leaves the screen. */
export function FleetControls(props: {
  readonly view: FleetView;
  readonly options: FleetOptions;
  /** Of the engine model looked for. */
  readonly modelName: string | null;
}) {
  const { view } = props;
  const narrowed = narrowedWords(view, props.modelName);
  return (
    <>
      {narrowed !== "" && <p className="print-only">{narrowed}</p>}
      <div className="fleet-controls no-print">
        <FilterForm view={view} options={props.options} />
        <SpanChoice view={view} />
        <div className="fleet-tools">
          <ColumnsChoice view={view} />
          <a href={fleetFileAddress(view)} download className="button-link">
            Download CSV
          </a>
          <PrintButton />
          <AppLink variant="button" href={roundAddress({ depot: view.depot })}>
            Test round
          </AppLink>
        </div>
      </div>
    </>
  );
}
