"use client";

import { AppLink } from "../app-link.client.tsx";
import { ScrollBox } from "../unit/scroll-box.tsx";
import "./rows-table.css";

export interface TableColumn {
  readonly title: string;
  readonly isNumber?: boolean;
}

export interface TableRow {
  readonly key: string;
  /** One for each column, as they are read. */
  readonly cells: readonly string[];
  /** Where the first cell leads. */
  readonly href?: string;
}

/** A table of words: data, so that a long one does not stand in the page twice. */
export function RowsTable(props: {
  readonly name: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly TableRow[];
  /** A last row, such as totals. */
  readonly foot?: readonly string[];
}) {
  const { name, columns, rows, foot } = props;
  const look = (i: number) => (columns[i]?.isNumber ? { className: "number" } : {});
  return (
    <ScrollBox name={name}>
      <table className="data-table rows-table">
        <caption className="visually-hidden">{name}</caption>
        <thead>
          <tr>
            {columns.map(({ title }, i) => (
              <th key={title} scope="col" {...look(i)}>
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, cells: [first, ...cells], href }) => (
            <tr key={key}>
              <th scope="row">{href === undefined ? first : <AppLink href={href}>{first}</AppLink>}</th>
              {cells.map((cell, i) => (
                <td key={columns[i + 1]?.title} {...look(i + 1)}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
        {foot !== undefined && (
          <tfoot>
            <tr>
              <th scope="row">{foot[0]}</th>
              {foot.slice(1).map((cell, i) => (
                <td key={columns[i + 1]?.title} {...look(i + 1)}>
                  <strong>{cell}</strong>
                </td>
              ))}
            </tr>
          </tfoot>
        )}
      </table>
    </ScrollBox>
  );
}
