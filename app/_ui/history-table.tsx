import type { ReactNode } from "react";
import { ScrollBox } from "./unit/scroll-box.tsx";

/** Who told what, and when, newest first: the rows of a history under its heads. */
export function HistoryTable(props: {
  readonly name: string;
  /** What stands between who and the last column. */
  readonly heads: readonly string[];
  /** What the last column does; it is not printed. */
  readonly does: string;
  /** The rows, with a cell for each column. */
  readonly children: ReactNode;
}) {
  return (
    <ScrollBox name={props.name}>
      <table className="data-table history-table">
        <thead>
          <tr>
            {["When", "Who", ...props.heads].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
            <th scope="col" className="no-print">
              <span className="visually-hidden">{props.does}</span>
            </th>
          </tr>
        </thead>
        <tbody>{props.children}</tbody>
      </table>
    </ScrollBox>
  );
}
