import type { ReactNode } from "react";
import type { IsoDate } from "../../../lib/schema/facts.ts";
import type { FleetRow } from "../../../lib/schema/report.ts";
import { AppLink } from "../app-link.client.tsx";
import { BandMark } from "../band-mark.tsx";
import { Bores } from "../bores.tsx";
import { formatDate, formatWeeklyUse } from "../formats.ts";
import { TimeAxis } from "../time-axis.tsx";
import type { TimeSpan } from "../time-span.ts";
import { unitAddress } from "../unit-address.ts";
import { likelyWords, windowLines } from "../window-drawing.ts";
import { WindowGlyph } from "../window-glyph.tsx";
import { type FleetView, fleetAddress } from "./address.ts";
import { lastTestWords, questionWords } from "./row-words.ts";

interface Shown {
  readonly rows: readonly FleetRow[];
  readonly view: FleetView;
  readonly asOf: IsoDate;
  readonly span: TimeSpan;
  /** The last date that forecasts reach. */
  readonly horizonEnd: IsoDate;
  readonly linesId: string;
}

/** The Fleet as a table, for wide screens and for paper. */
export function FleetTable(props: Shown) {
  const { view, span } = props;
  return (
    <table className="fleet-table">
      <caption className="visually-hidden">Units, their weakest place and when a repair is likely</caption>
      <thead>
        <tr>
          <SortHead view={view} sort="unit" className="col-unit">
            Unit
          </SortHead>
          <SortHead view={view} sort="band" className="col-band">
            Band
          </SortHead>
          <th scope="col" className="col-engine">
            Engine
          </th>
          <th scope="col" className="col-place">
            Weakest place, and why
          </th>
          <SortHead view={view} sort="last-test" className="col-test">
            Last test
          </SortHead>
          <SortHead view={view} sort="use" className="col-use">
            Use a week
          </SortHead>
          <SortHead view={view} sort="due" className="col-likely">
            Repair likely
          </SortHead>
          <th scope="col" className="col-axis">
            <span className="visually-hidden">
              Early to late, {formatDate(span.from)} to {formatDate(span.to)}
            </span>
            <TimeAxis span={span} />
          </th>
        </tr>
      </thead>
      <tbody>
        {props.rows.map((row) => (
          <FleetTableRow key={row.unit} row={row} {...props} />
        ))}
      </tbody>
    </table>
  );
}

function SortHead(props: {
  readonly view: FleetView;
  readonly sort: FleetView["sort"];
  readonly className: string;
  readonly children: ReactNode;
}) {
  const { view, sort } = props;
  const chosen = view.sort === sort;
  const direction = view.descending ? "descending" : "ascending";
  return (
    <th scope="col" className={props.className} {...(chosen ? { "aria-sort": direction } : {})}>
      <AppLink
        variant="bare"
        className="sort-link"
        scroll={false}
        href={fleetAddress(view, { sort, descending: chosen && !view.descending })}
      >
        {props.children}
        <span aria-hidden="true" className="sort-sign">
          {chosen ? (view.descending ? "↓" : "↑") : ""}
        </span>
      </AppLink>
    </th>
  );
}

function FleetTableRow({ row, ...props }: Shown & { readonly row: FleetRow }) {
  const test = lastTestWords(row, props.asOf);
  const quiet = row.band === "sound" && row.questions === 0;
  const withDepot = (model: string) => (row.depot === null ? model : `${model}, ${row.depot}`);
  return (
    <tr>
      <th scope="row" className="col-unit">
        <AppLink
          href={unitAddress(row.unit)}
          variant="bare"
          className="unit-link"
          title={`${row.unit}: ${withDepot(row.modelName)}`}
        >
          <span className="line line-strong">{row.unit}</span>
          <span className="line line-second">{withDepot(row.engineModel)}</span>
        </AppLink>
      </th>
      <td className="col-band">
        <BandMark band={row.band} tested={row.lastTestDate !== null} />
      </td>
      <td className="col-engine">
        <Bores layout={row.layout} bands={row.cylinderBands} />
      </td>
      <td className="col-place">
        <div className="line" title={row.placeTitle}>
          <span className={quiet ? "place-quiet" : "place"}>{row.placeTitle}</span>
          {row.questions > 0 && <span className="tag">{questionWords(row.questions)}</span>}
        </div>
        <div className="line line-second" title={row.placeDetail}>
          {row.placeDetail}
        </div>
      </td>
      <td className="col-test">
        <div className={row.lastTestDate === null ? "line second" : "line"}>{test.date}</div>
        <div className={row.testOverdue ? "line line-overdue" : "line line-second"}>{test.age}</div>
      </td>
      <td className="col-use">{formatWeeklyUse(row.perDay, row.meterUnit)}</td>
      <td className="col-likely">
        {likelyWords(row, props.horizonEnd).map(({ part, when, modelOnly }) => (
          <div key={part ?? "none"} className={part === null ? "line line-none" : "line"}>
            {part !== null && <span className="line-part">{part} </span>}
            {when}
            {modelOnly && <span className="line-part"> (model)</span>}
          </div>
        ))}
      </td>
      <td className="col-axis">
        <WindowGlyph topEnd={row.topEnd} bottomEnd={row.bottomEnd} span={props.span} linesId={props.linesId} />
        <span className="visually-hidden">{windowLines(row, props.horizonEnd).join("; ")}</span>
      </td>
    </tr>
  );
}
