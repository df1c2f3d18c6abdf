import { columnWords } from "../../../lib/layout/column-words.ts";
import type { Layout } from "../../../lib/layout/layout.ts";
import { sentenceWords } from "../../../lib/wording.ts";
import { ScrollBox } from "../unit/scroll-box.tsx";
import { headingWords } from "./layout-words.ts";

/** What each column of a layout is read as, in words. */
export function LayoutTable({ name, layout }: { readonly name: string; readonly layout: Layout }) {
  return (
    <ScrollBox name={`Columns of ${name}`}>
      <table className="data-table layout-table">
        <thead>
          <tr>
            <th scope="col" className="number">
              No.
            </th>
            <th scope="col">Heading</th>
            <th scope="col">Read as</th>
          </tr>
        </thead>
        <tbody>
          {layout.columns.map((column, index) => (
            // Two columns may have the same heading.
            // biome-ignore lint/suspicious/noArrayIndexKey: columns keep their order.
            <tr key={index} data-ignored={column.is === "ignored"}>
              <td className="number">{index + 1}</td>
              <th scope="row">{sentenceWords(headingWords(column.header, index))}</th>
              <td>{sentenceWords(columnWords(column))}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollBox>
  );
}
