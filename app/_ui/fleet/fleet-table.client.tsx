"use client";

import type { ReactNode } from "react";
import type { FleetQuery, FleetRow } from "../../../lib/schema/report.ts";
import { AppLink } from "../app-link.client.tsx";
import { useFormats } from "../formats.client.tsx";
import { tableRoles } from "../table-roles.ts";
import { TimeAxis } from "../time-axis.tsx";
import { unitAddress } from "../unit-address.ts";
import { hasWindow, windowLines } from "../window-drawing.ts";
import { AxisGround, WindowGlyph } from "../window-glyph.tsx";
import { type FleetView, fleetAddress } from "./address.ts";
import { areUsual, type ColumnId, columnOf, columnStyle } from "./columns.ts";
import { fleetCells } from "./fleet-cells.tsx";
import { GroupHeading } from "./group-heading.tsx";
import type { GroupRun } from "./groups.ts";
import { type FleetShown, weeksIdOf } from "./shown.ts";

/**
 * The Fleet as one table. On small screens the style sheet lays its rows out as blocks under the axis, which stays in view:
 * a second markup for them would double what the server draws and sends. A client component although it does nothing:
 * so its data go to the browser once, and not every element of its rows too, which halves the server's time for a page.
 */
export function FleetTable(told: Omit<FleetShown, "f">) {
  const f = useFormats();
  const { view, span, rows, runs } = told;
  const props = { ...told, f };
  return (
    <div className={areUsual(view.columns) ? "fleet-rows usual-columns" : "fleet-rows"}>
      <style>{columnStyle(view.columns)}</style>
      <table {...tableRoles.table} className="axis-table fleet-table">
        <caption className="visually-hidden">Units, their weakest place and when a repair is likely</caption>
        <thead {...tableRoles.rows}>
          <tr {...tableRoles.row}>
            <Head view={view} id="unit" sort="unit">
              Unit
            </Head>
            {view.columns.map((id) => (
              <Head key={id} view={view} id={id} sort={columnOf(id).sort ?? null}>
                {columnOf(id).head}
              </Head>
            ))}
            <th {...tableRoles.column} scope="col" className="col-axis">
              <span className="visually-hidden">
                Early to late, {f.date(span.from)} to {f.date(span.to)}
              </span>
              <TimeAxis span={span} />
            </th>
          </tr>
        </thead>
        {runs === null ? (
          <tbody {...tableRoles.rows}>
            <Rows rows={rows} shown={props} />
          </tbody>
        ) : (
          runs.map((run) => (
            <tbody {...tableRoles.rows} key={run.group.key ?? ""}>
              <GroupRow run={run} shown={props} />
              <Rows rows={run.rows} shown={props} />
            </tbody>
          ))
        )}
      </table>
    </div>
  );
}

function Head(props: {
  readonly view: FleetView;
  readonly id: ColumnId | "unit";
  readonly sort: FleetQuery["sort"] | null;
  readonly children: ReactNode;
}) {
  const { view, sort, children } = props;
  const className = `col-${props.id}`;
  if (sort === null) {
    return (
      <th {...tableRoles.column} scope="col" className={className}>
        {children}
      </th>
    );
  }
  const chosen = view.sort === sort;
  const direction = view.descending ? "descending" : "ascending";
  return (
    <th {...tableRoles.column} scope="col" className={className} {...(chosen ? { "aria-sort": direction } : {})}>
      <AppLink
        variant="bare"
        className="sort-link"
        scroll={false}
        href={fleetAddress(view, { sort, descending: chosen && !view.descending })}
      >
        {children}
        <span aria-hidden="true" className="sort-sign">
          {chosen ? (view.descending ? "↓" : "↑") : ""}
        </span>
      </AppLink>
    </th>
  );
}

/** The heading reaches over the cells beside it, which stay so that the axis keeps its place whatever columns leave. */
function GroupRow({ run, shown }: { readonly run: GroupRun; readonly shown: FleetShown }) {
  const { view, linesId } = shown;
  return (
    <tr {...tableRoles.row} className="group-row">
      <th {...tableRoles.head} scope="rowgroup" className="col-unit">
        <div className="group-words">
          <GroupHeading {...shown} run={run} />
        </div>
      </th>
      {view.columns.map((id) => (
        <td {...tableRoles.cell} key={id} className={`col-${id}`} />
      ))}
      <td {...tableRoles.cell} className="col-axis">
        <AxisGround
          height={44}
          linesId={linesId}
          weeksId={view.group === "depot" ? weeksIdOf(shown, run.group.key) : undefined}
        />
      </td>
    </tr>
  );
}

function Rows({ rows, shown }: { readonly rows: readonly FleetRow[]; readonly shown: FleetShown }) {
  return rows.map((row) => <FleetTableRow key={row.unit} row={row} shown={shown} />);
}

function FleetTableRow({ row, shown }: { readonly row: FleetRow; readonly shown: FleetShown }) {
  const withDepot = (model: string) => (row.depot === null ? model : `${model}, ${row.depot}`);
  return (
    <tr {...tableRoles.row}>
      <th {...tableRoles.head} scope="row" className="col-unit">
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
      {shown.view.columns.map((id) => (
        <td {...tableRoles.cell} key={id} className={`col-${id}`}>
          {fleetCells[id](row, shown)}
        </td>
      ))}
      <td {...tableRoles.cell} className={hasWindow(row, shown.span) ? "col-axis" : "col-axis no-window"}>
        <WindowGlyph
          topEnd={row.topEnd}
          bottomEnd={row.bottomEnd}
          span={shown.span}
          linesId={shown.linesId}
          weeksId={weeksIdOf(shown, row.depot)}
        />
        <span className="axis-words">{windowLines(row, shown.horizonEnd, shown.f).join(";\n")}</span>
      </td>
    </tr>
  );
}
