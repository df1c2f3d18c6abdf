import type { ChangeFrame } from "../../../lib/schema/changes.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { AppLink } from "../app-link.client.tsx";
import { tableRoles } from "../table-roles.ts";
import { TimeAxis } from "../time-axis.tsx";
import type { TimeSpan } from "../time-span.ts";
import { unitAddress } from "../unit-address.ts";
import { windowLines } from "../window-drawing.ts";
import { BandsThenAndNow, movedLines, Why } from "./change-parts.tsx";
import { hasWindows, MovedWindows } from "./moved-windows.tsx";
import type { ToldChange } from "./told-change.ts";

export interface ChangesShown {
  readonly units: readonly ToldChange[];
  readonly frame: ChangeFrame;
  readonly span: TimeSpan;
  readonly linesId: string;
  readonly f: Formats;
}

/** The units that changed; on small screens the style sheet lays the rows out as blocks, as it does the Fleet's. */
export function ChangesTable(props: ChangesShown) {
  const { span, f } = props;
  return (
    <table {...tableRoles.table} className="axis-table changes-table">
      <caption className="visually-hidden">Units that changed, what moved, and why</caption>
      <thead {...tableRoles.rows}>
        <tr {...tableRoles.row}>
          <th {...tableRoles.column} scope="col" className="col-unit">
            Unit
          </th>
          <th {...tableRoles.column} scope="col" className="col-bands">
            Band, then and now
          </th>
          <th {...tableRoles.column} scope="col" className="col-moved">
            What moved
          </th>
          <th {...tableRoles.column} scope="col" className="col-why">
            Why
          </th>
          <th {...tableRoles.column} scope="col" className="col-axis">
            <span className="visually-hidden">
              Early to late, then and now, {f.date(span.from)} to {f.date(span.to)}
            </span>
            <TimeAxis span={span} />
          </th>
        </tr>
      </thead>
      <tbody {...tableRoles.rows}>
        {props.units.map((unit) => (
          <ChangesRow key={unit.unit} told={unit} {...props} />
        ))}
      </tbody>
    </table>
  );
}

function ChangesRow({ told, ...shown }: ChangesShown & { readonly told: ToldChange }) {
  const { frame, f } = shown;
  const lines = movedLines(told.change, { ...frame, f });
  return (
    <tr {...tableRoles.row}>
      <th {...tableRoles.head} scope="row" className="col-unit">
        <UnitName told={told} />
      </th>
      <td {...tableRoles.cell} className="col-bands">
        <BandsThenAndNow {...told} />
      </td>
      <td {...tableRoles.cell} className="col-moved">
        {lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </td>
      <td {...tableRoles.cell} className="col-why">
        <Why why={told.why} f={f.knowing(serialsOf(told))} />
      </td>
      <td {...tableRoles.cell} className={hasWindows(told, shown.span) ? "col-axis" : "col-axis no-window"}>
        {told.now !== null && (
          <>
            <MovedWindows now={told.now} change={told.change} span={shown.span} linesId={shown.linesId} />
            <span className="visually-hidden">{windowLines(told.now, frame.horizonEnd, f).join("; ")}</span>
          </>
        )}
      </td>
    </tr>
  );
}

const serialsOf = ({ was, now }: ToldChange) => [was, now].map((one) => one?.basis?.engineSerial ?? null);

/** A unit that left has no page any more. */
function UnitName({ told }: { readonly told: ToldChange }) {
  const withDepot = (model: string | null) => [model, told.depot].filter((words) => words !== null).join(", ");
  const name = (
    <>
      <span className="line line-strong">{told.unit}</span>
      <span className="line line-second">{withDepot(told.engineModel)}</span>
    </>
  );
  if (told.now === null) return <span className="unit-link">{name}</span>;
  const title = `${told.unit}: ${withDepot(told.modelName)}`;
  return (
    <AppLink href={unitAddress(told.unit)} variant="bare" className="unit-link" title={title}>
      {name}
    </AppLink>
  );
}
